/** Orders that do not come out as an expert expects yet, each with what is missing. It may only shrink. */
export const KNOWN_OPEN: Readonly<Record<string, string>> = {
  'adult-546-mL-before':
    'the preferred specimen of a test is not kept: heparin plasma in place of serum gel',
  'adult-second-visit':
    'the preferred specimen of a test is not kept: heparin plasma in place of serum gel',
  ammonia: 'the preferred specimen of a test is not kept: heparin plasma in place of serum gel',
  antenatal: 'serology goes into EDTA gel: the preferred specimen is not kept',
  'before-surgery':
    'the preferred specimen of a test is not kept: heparin plasma in place of serum gel',
  'both-arms': 'the preferred specimen of a test is not kept: heparin plasma in place of serum gel',
  'child-12kg':
    'the preferred specimen of a test is not kept: heparin plasma in place of serum gel',
  'child-5-y-workup': 'the release assay has no set of four tubes',
  'child-leukemia-weekly':
    'the preferred specimen of a test is not kept: heparin plasma in place of serum gel',
  'coagulation-chemistry-cbc-straight':
    'the preferred specimen of a test is not kept: heparin plasma in place of serum gel',
  'coagulation-chemistry-cbc-winged':
    'the preferred specimen of a test is not kept: heparin plasma in place of serum gel',
  cryoglobulins:
    'the preferred specimen of a test is not kept: heparin plasma in place of serum gel',
  'drug-levels': 'the time of the last dose is not asked',
  ethanol: 'skin without alcohol is not told',
  'fluoride-lactate-glucose': 'glucose does not go on ice with lactate',
  'glucose-tolerance': 'two times of one order are one draw',
  'hand-23-gauge':
    'the preferred specimen of a test is not kept: heparin plasma in place of serum gel',
  'hand-25-gauge':
    'the preferred specimen of a test is not kept: heparin plasma in place of serum gel',
  'inpatient-cumulative':
    'the preferred specimen of a test is not kept: heparin plasma in place of serum gel',
  'interferon-gamma': 'the release assay has no set of four tubes',
  'ionized-calcium-pth': 'PTH goes into serum',
  'just-18': 'the preferred specimen of a test is not kept: heparin plasma in place of serum gel',
  'latex-and-fainting':
    'the preferred specimen of a test is not kept: heparin plasma in place of serum gel',
  'lipids-not-fasting': "a child's tube for an adult, and fasting asked for lipids",
  'newborn-1500-g': 'no micro-collection tubes and no partial fill',
  'newborn-bilirubin-cbc': 'no micro-collection tubes and no partial fill',
  oncology: 'two salts of EDTA for one patient',
  'pt-winged-25-gauge': 'fill time of a thin-walled 25 gauge is reckoned as regular wall',
  'renin-acth': 'two salts of EDTA for one patient',
  'septic-infant': 'no micro-collection tubes and no partial fill',
  'sodium-only':
    'the preferred specimen of a test is not kept: heparin plasma in place of serum gel',
  'teenager-chemotherapy':
    'the preferred specimen of a test is not kept: heparin plasma in place of serum gel',
  'trace-elements': 'trace element tubes stand last',
  'two-culture-sets': 'two sets are one puncture',
}
