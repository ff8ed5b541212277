const pad = (number: number): string => String(number).padStart(4, '0');

const record = (id: string, type: string, fields: string, body: string): string =>
  `---\nid: ${id}\ntype: ${type}\ntitle: Part ${id} of a large file\nstatus: draft\n${fields}---\n${body}\n`;

const prose =
  'The plunger holds its force over the whole shelf life, with wetted granules, at 10 to 30 °C and after transit. '.repeat(
    6,
  );

/**
 * A technical file of about `count` records: needs, inputs, outputs, risks with controls, protocols and records with 30
 * readings each, linked without gaps. The same count gives the same bytes.
 */
export const largeFile = (count: number): ReadonlyMap<string, string> => {
  const files = new Map<string, string>([
    ['plinth.yaml', 'device: { name: Test device, maker: Harrow Lane Instruments }\n'],
  ]);
  const sets = Math.ceil(count / 8);
  for (let set = 1; set <= sets; set += 1) {
    const at = pad(set);
    const folder = `part-${pad(Math.ceil(set / 50))}`;
    const add = (id: string, type: string, fields: string, body: string): void => {
      files.set(`${folder}/${id}.md`, record(id, type, fields, body));
    };
    add(`UN-${at}`, 'user-need', 'needed_by: [dental surgeon]\n', `${prose}\n\n## Rationale\n\n${prose}`);
    add(
      `DI-${at}`,
      'design-input',
      `derives_from: [UN-${at}, RC-${at}]\nlimits:\n  - { characteristic: force ${set}, unit: N, lower: 30.0 }\nmethod: [test]\n`,
      `The force is at least 30 N. See UN-${at} and DI-${pad(Math.max(1, set - 1))}.\n\n## Rationale\n\n${prose}`,
    );
    add(
      `DO-${at}`,
      'design-output',
      `satisfies: [DI-${at}]\nkind: part\nrevision: A\ncharacteristics:\n  - { name: wall, nominal: 1.00, plus: 0.05, minus: 0.05, unit: mm }\n`,
      prose,
    );
    add(
      `VP-${at}`,
      'verification-protocol',
      `verifies: [DI-${at}]\nmethod: test\ncondition: fresh\nacceptance:\n  - { characteristic: force ${set}, unit: N, lower: 30.0 }\nsampling: { kind: normal-tolerance-interval, confidence: 0.95, reliability: 0.95, size: 30, rationale: For speed. }\n`,
      `## Purpose\n\nShows DI-${at}.\n\n## Procedure\n\n${prose}`,
    );
    for (const run of ['A', 'B']) {
      const id = `VR-${at}${run}`;
      add(
        id,
        'verification-record',
        `reports: VP-${at}\nexecuted: { from: 2026-06-01, to: 2026-06-02 }\n${run === 'B' ? `retests: VR-${at}A\n` : ''}data:\n  file: data/${id}.csv\n  sha256: "${'0'.repeat(64)}"\n  unit_id: unit\n  columns:\n    - { characteristic: force ${set}, column: force }\nresult: pass\n`,
        `## Conclusion\n\n${prose}`,
      );
      const rows = Array.from({ length: 30 }, (_, unit) => {
        const share = (unit + 0.5) / 30;
        return `U${unit},${(50 + set / 1000 + 15 * (share ** 0.14 - (1 - share) ** 0.14)).toFixed(2)}\n`;
      });
      files.set(`${folder}/data/${id}.csv`, `unit,force [N]\n${rows.join('')}`);
    }
    add(
      `RC-${at}`,
      'risk-control',
      `controls: [RK-${at}]\noption: inherently safe design\nimplemented_by: [DO-${at}]\nshown_by: [VP-${at}]\n`,
      `${prose}\n\n## Rationale\n\n${prose}`,
    );
    add(
      `RK-${at}`,
      'risk',
      'hazard: Stress\nsequence: A side load breaks the part\nhazardous_situation: A fragment lies in the site\nharm: Further surgery\nseverity: S4\nbefore: { p1: 0.001, p2: 0.1 }\nafter: { p1: 0.000001, p2: 0.1 }\n',
      prose,
    );
  }
  return files;
};

/**
 * A technical file whose trace matrix has 10,000 rows: each of 1,000 design inputs answers five of 100 needs, and has a
 * protocol with two records, the second of which repeats the first.
 */
export const longMatrixFile = (): ReadonlyMap<string, string> => {
  const files = new Map<string, string>([
    ['plinth.yaml', 'device: { name: Test device, maker: Harrow Lane Instruments }\n'],
  ]);
  const add = (id: string, type: string, fields: string, body: string): void => {
    files.set(`${type}/${id}.md`, record(id, type, fields, body));
  };
  for (let at = 1; at <= 100; at += 1)
    add(
      `UN-${pad(at)}`,
      'user-need',
      'needed_by: [dental surgeon]\n',
      `${prose}\n\n## Rationale\n\n${prose}`,
    );
  for (let at = 1; at <= 1_000; at += 1) {
    const id = pad(at);
    const needs = [0, 1, 2, 3, 4].map((step) => `UN-${pad(((at + 17 * step) % 100) + 1)}`);
    add(
      `DI-${id}`,
      'design-input',
      `derives_from: [${needs.join(', ')}]\nlimits:\n  - { characteristic: force ${at}, unit: N, lower: 30.0 }\nmethod: [test]\n`,
      `The force is at least 30 N.\n\n## Rationale\n\n${prose}`,
    );
    add(
      `VP-${id}`,
      'verification-protocol',
      `verifies: [DI-${id}]\nmethod: test\ncondition: fresh\nacceptance:\n  - { characteristic: force ${at}, unit: N, lower: 30.0 }\nsampling: { kind: normal-tolerance-interval, confidence: 0.95, reliability: 0.95, size: 30, rationale: For speed. }\n`,
      `## Purpose\n\nShows DI-${id}.\n\n## Procedure\n\n${prose}`,
    );
    for (const run of ['A', 'B'])
      add(
        `VR-${id}${run}`,
        'verification-record',
        `reports: VP-${id}\nexecuted: { from: 2026-06-01, to: 2026-06-02 }\n${run === 'B' ? `retests: VR-${id}A\n` : ''}result: pass\n`,
        `## Conclusion\n\n${prose}`,
      );
  }
  return files;
};
