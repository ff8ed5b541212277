/** One row of an inspection: item, where it was found, answer, remark. No cell holds a comma. */
export type ChecklistRow = readonly [
  item: string,
  found: string,
  result: 'yes' | 'no' | 'not applicable',
  remark: string,
];

const rows = (
  prefix: string,
  answers: Readonly<Record<string, string>>,
  reasons: Readonly<Record<string, string>>,
): readonly ChecklistRow[] => {
  const letters = [...'abcdefghijklmnopqrstuvwxyz', 'aa', 'ab'].filter(
    (letter) => letter in answers || letter in reasons,
  );
  return letters.map((letter) =>
    letter in answers
      ? [`${prefix}(${letter})`, answers[letter] ?? '', 'yes', '']
      : [`${prefix}(${letter})`, 'none', 'not applicable', reasons[letter] ?? ''],
  );
};

/** Inspection of the label against 23.2 and 23.3 (numbers of Annex I of Regulation (EU) 2017/745). */
export const labelChecklist: readonly ChecklistRow[] = [
  ...rows(
    '23.2',
    {
      a: 'name line',
      b: 'description line',
      c: 'manufacturer symbol',
      g: 'LOT symbol',
      h: 'data matrix and text',
      i: 'use-by symbol',
      k: 'storage symbols and text',
      l: 'STERILE EO symbol',
      m: 'caution symbol and text',
      n: 'do-not-reuse symbol',
      q: 'MD symbol',
    },
    {
      d: 'maker has its place of business in the Union',
      e: 'no medicinal or human or animal material',
      f: 'no substance above 0.1 % w/w',
      j: 'use-by date is shown',
      o: 'not a reprocessed device',
      p: 'not custom-made',
      r: 'nothing is absorbed or dispersed',
      s: 'not an implant',
    },
  ),
  ...rows(
    '23.3',
    {
      a: 'single sterile barrier symbol',
      b: 'STERILE in the symbol',
      c: 'EO in the symbol',
      d: 'manufacturer line on the lid',
      e: 'description line on the lid',
      h: 'date-of-manufacture symbol with 2026-06-01',
      i: 'use-by symbol with 2029-05-31',
      j: 'do-not-use-if-damaged symbol and text',
    },
    { f: 'not for clinical investigation', g: 'not custom-made' },
  ),
];

/** Inspection of the instructions against 23.4, and of the four disclosed residual risks. */
export const instructionsChecklist: readonly ChecklistRow[] = [
  ...rows(
    '23.4',
    {
      a: 'section 1',
      b: 'section 1',
      c: 'section 1',
      e: 'section 1',
      f: 'section 4',
      g: 'section 8',
      h: 'section 1',
      i: 'sections 2 to 5',
      j: 'section 1',
      k: 'section 5',
      l: 'section 2',
      p: 'section 8',
      q: 'section 4',
      s: 'sections 4; 6; 8',
      v: 'section 7',
      y: 'footer',
      z: 'section 8',
    },
    {
      d: 'neither implantable nor class III',
      m: 'supplied sterile',
      n: 'not reusable',
      o: 'not reusable',
      r: 'no radiation',
      t: 'nothing is absorbed or dispersed',
      u: 'not an implant',
      w: 'not for lay persons',
      x: 'has a medical purpose',
      aa: 'not an implant',
      ab: 'no electronic system',
    },
  ),
  ['RK-01 statement', 'sections 2; 8', 'yes', 'check the pack'],
  ['RK-04 statement', 'sections 6; 8', 'yes', 'count the squeezes'],
  ['RK-10 statement', 'sections 7; 8', 'yes', 'single use'],
  ['RK-12 statement', 'sections 4; 8', 'yes', 'granule size'],
];

/** Inspection of the biological evaluation report. */
export const biologicalChecklist: readonly ChecklistRow[] = [
  ['evaluation plan precedes the tests', 'report section 2', 'yes', 'plan of 2025-12-03'],
  ['categorisation by contact and time', 'report section 3', 'yes', 'breached tissue; limited'],
  ['material characterisation', 'report section 4', 'yes', 'seven materials; extracts in two solvents'],
  ['cytotoxicity', 'laboratory report B1', 'yes', 'grade 0; no concern'],
  ['sensitisation', 'laboratory report B2', 'yes', 'no reaction; no concern'],
  ['irritation', 'laboratory report B3', 'yes', 'index 0.1; no concern'],
  ['acute systemic toxicity', 'laboratory report B4', 'yes', 'no effect; no concern'],
  ['material-mediated pyrogenicity', 'laboratory report B5', 'yes', 'no rise; no concern'],
  ['implantation effects', 'report section 7', 'yes', 'no test; reason stated; no concern'],
  ['genotoxicity', 'report section 8', 'yes', 'no test; reason stated; no concern'],
  ['conclusion with name of the evaluator', 'report section 9', 'yes', 'signed 2026-04-17'],
];

/** Inspection of the declarations of the material suppliers. */
export const declarationChecklist: readonly ChecklistRow[] = [
  ['MT-01 polycarbonate of the barrel', 'declaration of 2025-09-12', 'yes', 'grade named'],
  ['MT-02 acetal of the rack', 'declaration of 2025-10-02', 'yes', 'grade named'],
  ['MT-03 acetal of the lever', 'declaration of 2025-10-02', 'yes', 'grade named'],
  ['MT-04 polycarbonate of the tip', 'declaration of 2025-09-12', 'yes', 'grade named'],
  ['MT-05 elastomer of the seal', 'declaration of 2025-12-03', 'yes', 'second declaration; grade named'],
  ['MT-06 steel of the spring', 'declaration of 2025-06-30', 'yes', 'cobalt below 0.1 %'],
  ['MT-07 blister and lid', 'declarations of 2025-08-21', 'yes', 'both grades named'],
  ['residual bisphenol A in polycarbonate', 'declaration of 2025-09-12', 'yes', 'below 0.01 %'],
];
