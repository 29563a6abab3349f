export type LaunchStep = 'none' | 'begin' | 'end'

/** Which step of a launch from a chart this address is (SMART App Launch 2, "EHR launch"). */
export function launchStep({ searchParams: asked }: URL): LaunchStep {
  if (asked.has('iss') && asked.has('launch')) return 'begin'
  return asked.has('state') && (asked.has('code') || asked.has('error')) ? 'end' : 'none'
}
