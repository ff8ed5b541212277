import { describe, expect, test } from 'vitest';
import type { Finding } from '../../src/findings/finding.ts';
import { fingerprint } from '../../src/findings/fingerprint.ts';
import { type Analysis, analyse } from '../../src/pipeline.ts';
import { inputsFrom, readTree } from '../support/technical-file.ts';
import {
  approvalFaults,
  type Base,
  type CampaignFault,
  faultsOfEveryType,
  protocolFaults,
  resultFaults,
  withoutField,
} from './campaign-faults.ts';

/**
 * The campaign of planted faults: single faults over all record types of the demonstration file. Each must give its
 * finding on its record, and nothing that has nothing to do with it. Faults of content are planted in the file as it
 * would be without approvals, so that a lapse does not hide or repeat what the fault itself gives.
 */

const decoder = new TextDecoder();
const signed = new Map<string, string>(
  [...readTree('content')].map(([path, bytes]) => [path, decoder.decode(bytes)]),
);
const unsigned = new Map(
  [...signed].map(([path, text]) => [
    path,
    path.endsWith('.md')
      ? withoutField(text, 'approvals')
      : path === 'plinth.yaml'
        ? text.replace(/^approval_roles:\n(?: .*\n)*/m, '').replace(/^independence:\n(?: .*\n)*/m, '')
        : text,
  ]),
);
const bases: Readonly<Record<Base, ReadonlyMap<string, string>>> = { signed, unsigned };

const analysed = (files: ReadonlyMap<string, string>): Analysis => analyse(inputsFrom(files));
const clean: Readonly<Record<Base, Analysis>> = { signed: analysed(signed), unsigned: analysed(unsigned) };
const known: Readonly<Record<Base, ReadonlySet<string>>> = {
  signed: new Set(clean.signed.findings.map(fingerprint)),
  unsigned: new Set(clean.unsigned.findings.map(fingerprint)),
};

/** Records next to a record, and itself: a finding about one of them has to do with the fault. */
const around = (id: string): ReadonlySet<string> => {
  const { graph } = clean.signed;
  return new Set([
    id,
    ...graph.linksFrom(id).map((link) => link.to),
    ...graph.linksTo(id).map((link) => link.from),
  ]);
};

const outcomeOf = (fault: CampaignFault, base: Base, id: string) => {
  const files = new Map(bases[base]);
  const before = files.get(fault.file) ?? '';
  if (fault.adds) files.set(fault.adds.path, before);
  else {
    const after = fault.edit(before);
    if (after === before) throw new Error(`${fault.name}: the fault changed nothing`);
    files.set(fault.file, after);
  }
  const found = analysed(files).findings.filter((finding) => !known[base].has(fingerprint(finding)));
  const isExpected = (finding: Finding): boolean =>
    finding.code === fault.code &&
    (fault.record === undefined
      ? finding.place.file === fault.file
      : finding.records[0] === fault.record || finding.place.file === fault.file);
  const near = around(id);
  const isRelated = (finding: Finding): boolean =>
    isExpected(finding) ||
    finding.place.file === fault.file ||
    finding.records.some((record) => near.has(record)) ||
    asksForTheOnly.get(finding.code) === idsByType.get(id) ||
    finding.related.some((related) => related.place.file === fault.file) ||
    finding.message.split(/[^A-Za-z0-9.-]+/).includes(id);
  return {
    isFound: found.some(isExpected),
    unrelated: found.filter((finding) => !isRelated(finding)),
    found,
  };
};

/** Findings that a file lacks a record of a type of which it has one: they follow where that one can't be read. */
const asksForTheOnly: ReadonlyMap<string, string> = new Map([
  ['use-specification-missing', 'use-specification'],
  ['classification-missing', 'classification'],
  ['declaration-item-missing', 'classification'],
  ['clause-not-answered', 'legal-requirement'],
  ['overall-residual-risk-missing', 'risk-review'],
  ['risk-plan-missing', 'risk-plan'],
  ['surveillance-plan-missing', 'surveillance-plan'],
]);

const { graph } = clean.signed;
const idsByType = new Map([...graph.records.values()].map((record) => [record.id, record.type]));

/** Of every record type the record in the middle of its list: any will do, and it stays the same one. */
const oneOfEachType = [...graph.types.keys()].flatMap((name) => {
  const list = [...graph.records.values()].filter(
    (record) => record.type === name && record.status !== 'retired',
  );
  return list[Math.floor(list.length / 2)] ?? [];
});

const everyResult = [...graph.records.values()].filter((record) =>
  ['verification-record', 'analysis'].includes(record.type),
);

const faults: readonly (readonly [CampaignFault, Base, string])[] = [
  ...oneOfEachType.flatMap((record, position) => {
    const type = graph.types.get(record.type);
    return type
      ? [
          // Every second fault of each type: all of them on some type, and every type with half of them.
          ...faultsOfEveryType(record, type, idsByType)
            .filter((_, index) => (index + position) % 2 === 0)
            .map((fault) => [fault, 'unsigned', record.id] as const),
          ...approvalFaults(record).map((fault) => [fault, 'signed', record.id] as const),
        ]
      : [];
  }),
  ...everyResult
    .filter((_, index) => index % 5 === 0)
    .flatMap((record) => resultFaults(record).map((fault) => [fault, 'unsigned', record.id] as const)),
  ...graph
    .recordsOf('verification-protocol')
    .filter((_, index) => index % 4 === 0)
    .flatMap((record) => protocolFaults(record).map((fault) => [fault, 'unsigned', record.id] as const)),
];

describe('the campaign of planted faults', () => {
  test('covers every record type with at least 200 faults', () => {
    expect(faults.length).toBeGreaterThanOrEqual(200);
    expect(new Set(faults.map(([, , id]) => idsByType.get(id)))).toEqual(new Set(graph.types.keys()));
  });

  test('finds every fault, and nothing that has nothing to do with it', () => {
    const missed: string[] = [];
    const unrelated: string[] = [];
    const codes = new Map<string, number>();
    for (const [fault, base, id] of faults) {
      const outcome = outcomeOf(fault, base, id);
      codes.set(fault.code, (codes.get(fault.code) ?? 0) + 1);
      if (!outcome.isFound)
        missed.push(
          `${fault.name}: expected ${fault.code}, found ${outcome.found.map((finding) => `${finding.code} ${finding.records[0] ?? ''}`).join(', ') || 'nothing'}`,
        );
      for (const finding of outcome.unrelated)
        unrelated.push(`${fault.name}: ${finding.code} ${finding.records[0] ?? ''}: ${finding.message}`);
    }
    console.log(
      `planted faults found: ${faults.length - missed.length} of ${faults.length}, unrelated findings: ${unrelated.length} (${[...codes].map(([code, count]) => `${code} ${count}`).join(', ')})`,
    );
    expect({ missed, unrelated }).toEqual({ missed: [], unrelated: [] });
  }, 600_000);
});
