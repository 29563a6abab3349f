import { describe } from 'vitest'
import { contractRig, type ContractClinic } from '../support/hubRig.ts'
import { hubKeysContract } from './hubKeys.contract.ts'
import { hubLinkContract } from './hubLink.contract.ts'
import { hubLogsContract } from './hubLogs.contract.ts'

/** What every hub must do. */
export function hubContract(name: string, fresh: () => Promise<ContractClinic>): void {
  describe(`${name} as a hub`, () => {
    const rig = contractRig(fresh)
    hubLogsContract(rig)
    hubLinkContract(rig)
    hubKeysContract(rig)
  })
}
