import { describe, expect, it } from 'vitest'
import { missingScopes } from '../../../src/core/handOver/missingScopes.ts'

// SMART App Launch 2.0, "Scopes and Launch Context": the syntax, and how version 1's names map ("read" is rs, "write" cud).
describe('rights that were asked for and not given', () => {
  it.each([
    ['system/*.cruds', 'system/*.cruds', []],
    ['system/Patient.rs system/Task.cruds', 'system/Task.cruds', ['system/Patient.rs']],
    ['system/Patient.rs', 'system/*.read', []],
    ['system/Patient.cruds', 'system/Patient.read system/Patient.write', []],
    ['system/Patient.cud', 'system/*.rs', ['system/Patient.cud']],
    ['system/Patient.rs', 'user/Patient.rs', ['system/Patient.rs']],
    ['system/Patient.rs', 'patient/Patient.rs', ['system/Patient.rs']],
    ['system/Patient.rs', 'system/Patient.rs?active=true', ['system/Patient.rs']],
    ['launch offline_access patient/ServiceRequest.rs', 'patient/ServiceRequest.rs', []],
    ['system/Patient.rs', '', ['system/Patient.rs']],
  ])('asked %j, given %j', (asked, granted, missing) => {
    expect(missingScopes(asked, granted)).toEqual(missing)
  })

  it('are none where the server says nothing: it gave what was asked (RFC 6749, section 5.1)', () => {
    expect(missingScopes('system/*.cruds', undefined)).toEqual([])
  })
})
