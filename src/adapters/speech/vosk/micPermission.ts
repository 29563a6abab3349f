/** What the browser says about the microphone for this page; `unknown` where it does not answer such questions. */
export type MicPermission = PermissionState | 'unknown'

export interface MicPermissionWatch {
  now(): MicPermission
  /** Asks the browser anew, for those that do not tell of a change by themselves. */
  ask(): Promise<MicPermission>
  end(): void
}

/** Asks the browser and goes on watching; `onChange` is called when its answer becomes another. */
export async function watchMicPermission(
  onChange: (permission: MicPermission) => void,
): Promise<MicPermissionWatch> {
  let status = await query()
  let known: MicPermission = status?.state ?? 'unknown'
  const notice = (): void => {
    const next = status?.state ?? 'unknown'
    if (next === known) return
    known = next
    onChange(next)
  }
  status?.addEventListener('change', notice)
  return {
    now: () => known,
    async ask() {
      const next = await query()
      if (next !== status) {
        status?.removeEventListener('change', notice)
        status = next
        status?.addEventListener('change', notice)
      }
      notice()
      return known
    },
    end: () => status?.removeEventListener('change', notice),
  }
}

async function query(): Promise<PermissionStatus | undefined> {
  try {
    return await navigator.permissions.query({ name: 'microphone' })
  } catch {
    // Older browsers know no such permission, or no permissions at all.
    return undefined
  }
}
