import { antisepticFor, isForCareOnly, isUnfit, mustBeNamed } from './antisepticChoice.ts'
import type { Antiseptic } from './antiseptics.ts'
import type { ConsentBy, ConsentForm, Position } from './events.ts'
import * as draw from './facts.ts'
import { tooYoungToAgree } from './ownWord.ts'
import { fact, type Rule } from './rule.ts'

/** Rules of what is said and done before the needle. */

/** The skin was cleaned; with what the screen shows, where nobody names another. */
export function cleanedWith(named: Antiseptic | undefined): Rule {
  return {
    impossible: [
      [(s) => draw.needleIsIn(s), 'needleIsIn'],
      [(s) => s.puncture.needleOut !== undefined, 'alreadyDone'],
      [(s) => named === undefined && mustBeNamed(s), 'cleanerUnnamed'],
    ],
    flags: [
      [(s) => isUnfit(s, named ?? antisepticFor(s)), 'wrongAntiseptic'],
      [(s) => isForCareOnly(s, named ?? antisepticFor(s)), 'infantChlorhexidine'],
    ],
    records: (s) => [{ type: 'skinCleaned', with: named ?? antisepticFor(s) }],
  }
}

/** How the patient sits or lies. */
export function takePosition(position: Position): Rule {
  return {
    impossible: [[(s) => s.position === position, 'alreadyDone']],
    records: fact({ type: 'positionTaken', position }),
  }
}

/** Asked before the draw: latex. */
export function answerLatex(latexAllergy: boolean): Rule {
  return {
    impossible: [[(s) => draw.answersOf(s).latexAllergy === latexAllergy, 'alreadyDone']],
    records: fact({ type: 'answerTaken', answer: { latexAllergy } }),
  }
}

/** Asked before the draw: fainting. */
export function answerFainted(faintedBefore: boolean): Rule {
  return {
    impossible: [[(s) => draw.answersOf(s).faintedBefore === faintedBefore, 'alreadyDone']],
    records: fact({ type: 'answerTaken', answer: { faintedBefore } }),
  }
}

/** Who agreed and how; of somebody too young to agree, who is not claimed. */
export function consentBy(how: { readonly by: ConsentBy; readonly form: ConsentForm }): Rule {
  return {
    impossible: [[(s) => s.consent === 'given', 'alreadyDone']],
    records: (s) => {
      const { by, form } = how
      const isUnsaid = by === 'patient' && tooYoungToAgree(s)
      return [isUnsaid ? { type: 'consentGiven', form } : { type: 'consentGiven', by, form }]
    },
  }
}
