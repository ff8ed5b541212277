import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { projectRoot } from '../support/technical-file.ts';
import {
  dataPath,
  type PlainFile,
  type PlainRecord,
  plainDigest,
  plainLinks,
  textsOf,
} from './random-file.ts';

/**
 * The definitions of DEVELOPERS.md ("What a change touches") once more, as plainly as can be said: by asking every
 * record about every other one. Verdicts and error-level findings are taken as given.
 */

interface StandingSource {
  readonly link: string;
  readonly direction: 'in' | 'out';
  readonly types: readonly string[];
  readonly need: 'all' | 'latest';
  readonly optional?: boolean;
  readonly pending?: string;
}

const ruleOf = (type: string): { verdict?: boolean; shown_by?: StandingSource[] } | undefined => {
  const schema = JSON.parse(readFileSync(join(projectRoot, `schemas/${type}.schema.json`), 'utf8')) as {
    'x-record': { standing?: { verdict?: boolean; shown_by?: StandingSource[] } };
  };
  return schema['x-record'].standing;
};
const rules = new Map<string, ReturnType<typeof ruleOf>>();
const rule = (type: string): ReturnType<typeof ruleOf> => {
  if (!rules.has(type)) rules.set(type, ruleOf(type));
  return rules.get(type);
};

/** What made the last approval of a record lapse, in no order; undefined where it is in force or there is none. */
export const naiveLapse = (file: PlainFile, record: PlainRecord): readonly string[] | undefined => {
  // All approvals are of one role, so the last one is that of the latest day, the lowest in the file among equals.
  const last = [...record.approvals].sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0)).at(-1);
  if (!last) return undefined;
  const changed = new Set<string>();
  if (last.digest !== plainDigest(record)) changed.add(record.id);
  for (const [id, digest] of Object.entries(last.relies_on ?? {})) {
    const other = file.get(id);
    if (!other || plainDigest(other) !== digest) changed.add(id);
  }
  return changed.size > 0 ? [...changed].sort() : undefined;
};

export const naiveStanding = (
  file: PlainFile,
  verdict: (id: string) => string | undefined,
  hasError: (id: string) => boolean,
): ReadonlyMap<string, string> => {
  const order = ['failed', 'in doubt', 'unplanned', 'planned', 'passed'];
  const linksOf = (record: PlainRecord, field: string): readonly string[] =>
    plainLinks(record)
      .filter((link) => link.field === field)
      .map((link) => link.to);
  const stateOf = (record: PlainRecord): string => {
    const standing = rule(record.type);
    const states: string[] = [];
    if (standing?.verdict) {
      const said = verdict(record.id);
      states.push(
        said === 'pass'
          ? record.status === 'approved'
            ? 'passed'
            : 'planned'
          : said === 'fail'
            ? 'failed'
            : said === 'undecided'
              ? 'in doubt'
              : 'planned',
      );
    }
    for (const source of standing?.shown_by ?? []) {
      const others = [...file.values()].filter(
        (other) =>
          other.status !== 'retired' &&
          source.types.includes(other.type) &&
          (source.direction === 'in'
            ? linksOf(other, source.link).includes(record.id)
            : linksOf(record, source.link).includes(other.id)),
      );
      if (others.length === 0 && !source.optional) states.push(source.pending ?? 'unplanned');
      states.push(...others.map(stateOf));
    }
    const state = order.find((each) => states.includes(each)) ?? 'unplanned';
    return state === 'passed' && (naiveLapse(file, record) !== undefined || hasError(record.id))
      ? 'in doubt'
      : state;
  };
  return new Map(
    [...file.values()].filter((record) => rule(record.type)).map((record) => [record.id, stateOf(record)]),
  );
};

/** Records that are no longer what others relied on. */
export const naiveChanged = (before: PlainFile, after: PlainFile): ReadonlySet<string> =>
  new Set(
    [...before.values()]
      .filter((old) => {
        const now = after.get(old.id);
        return (
          !now ||
          plainDigest(old) !== plainDigest(now) ||
          (old.status === 'retired') !== (now.status === 'retired')
        );
      })
      .map((old) => old.id),
  );

/** Whether a record rests on another one: by a chain of links that passes through no design output. */
const restsOn = (
  file: PlainFile,
  from: string,
  to: string,
  allowed: (from: string, to: string) => boolean = () => true,
): boolean => {
  let reached = new Set([from]);
  for (;;) {
    const more = new Set(reached);
    for (const id of reached) {
      const record = file.get(id);
      if (!record || (id !== from && record.type === 'design-output')) continue;
      for (const link of plainLinks(record)) if (allowed(id, link.to)) more.add(link.to);
    }
    if (more.size === reached.size) return to !== from && reached.has(to);
    reached = more;
  }
};

export interface NaiveTest {
  readonly action: string;
  readonly protocols: readonly string[];
  readonly causes: readonly string[];
}

/** Results to repeat or to argue anew, with what changed beneath them. */
export const naiveTests = (
  before: PlainFile,
  after: PlainFile,
  verdictBefore: (id: string) => string | undefined,
  verdictAfter: (id: string) => string | undefined,
): ReadonlyMap<string, NaiveTest> => {
  const changed = naiveChanged(before, after);
  const tests = new Map<string, NaiveTest>();
  for (const record of after.values()) {
    if (record.type !== 'verification-record' || record.status === 'retired' || !before.has(record.id))
      continue;
    const protocol = after.get(String(record.fields['reports']));
    const causes = [...changed].filter((id) => id === record.id || restsOn(after, record.id, id));
    const links = protocol ? plainLinks(protocol) : [];
    const named = [
      ...plainLinks(record).filter((link) => link.field === 'tested'),
      ...links.filter((link) => link.field === 'tests'),
    ];
    // Where nothing says which outputs were tested, those behind the design inputs may have been.
    if (named.length === 0)
      for (const { to } of links.filter((link) => link.field === 'verifies'))
        for (const output of after.values())
          if (
            output.type === 'design-output' &&
            changed.has(output.id) &&
            plainLinks(output).some((link) => link.to === to)
          )
            causes.push(output.id);
    const isJudgedWorse = verdictBefore(record.id) === 'pass' && verdictAfter(record.id) !== 'pass';
    const csv = dataPath(record);
    const hasOtherData = textsOf(before).get(csv) !== textsOf(after).get(csv);
    if (causes.length === 0 && !isJudgedWorse && !hasOtherData) continue;
    const oldProtocol = before.get(protocol?.id ?? '');
    const without = ({ fields, body }: PlainRecord): string =>
      JSON.stringify([{ ...fields, acceptance: 0, sampling: 0, title: 0 }, body.trim()]);
    const asksForWork =
      isJudgedWorse ||
      hasOtherData ||
      [...named, ...links.filter((link) => link.field === 'uses')].some((link) => changed.has(link.to)) ||
      (protocol !== undefined &&
        changed.has(protocol.id) &&
        oldProtocol !== undefined &&
        without(oldProtocol) !== without(protocol)) ||
      (protocol === undefined && changed.has(String(record.fields['reports'])));
    tests.set(record.id, {
      protocols: [String(record.fields['reports'])],
      action: asksForWork ? 'repeat' : 're-argue',
      causes: [...new Set(causes)].sort(),
    });
  }
  // Results that are gone: there are no repetitions in these files that could replace them.
  for (const old of before.values()) {
    const now = after.get(old.id);
    if (old.type !== 'verification-record' || old.status === 'retired' || (now && now.status !== 'retired'))
      continue;
    const protocols = [old, ...(now ? [now] : [])].map((each) => String(each.fields['reports']));
    tests.set(old.id, { action: 'repeat', causes: [old.id], protocols });
  }
  return tests;
};

/** Risks to evaluate again. */
export const naiveRisks = (
  before: PlainFile,
  after: PlainFile,
  tests: ReadonlyMap<string, NaiveTest>,
): readonly string[] => {
  const changed = naiveChanged(before, after);
  const controls = (file: PlainFile, risk: string): readonly PlainRecord[] =>
    [...file.values()].filter((record) =>
      plainLinks(record).some((link) => link.field === 'controls' && link.to === risk),
    );
  return [...after.values()]
    .filter((risk) => risk.type === 'risk' && risk.status !== 'retired')
    .filter((risk) => {
      if (changed.has(risk.id) || !before.has(risk.id)) return true;
      const now = controls(after, risk.id);
      if (controls(before, risk.id).some((old) => !now.some((each) => each.id === old.id))) return true;
      return now.some((control) => {
        if (changed.has(control.id) || !before.has(control.id)) return true;
        if (control.status === 'retired') return false;
        const isBasis = (from: string, to: string): boolean =>
          from !== control.id || after.get(to)?.type !== 'risk';
        if ([...changed].some((id) => id !== risk.id && restsOn(after, control.id, id, isBasis))) return true;
        return plainLinks(control)
          .filter((link) => link.field === 'shown_by')
          .some((link) => [...tests.values()].some((test) => test.protocols.includes(link.to)));
      });
    })
    .map((risk) => risk.id)
    .sort();
};

/** Legal requirements whose evidence changed or is to be shown again. */
export const naiveRequirements = (
  before: PlainFile,
  after: PlainFile,
  tests: ReadonlyMap<string, NaiveTest>,
): readonly string[] => {
  const changed = naiveChanged(before, after);
  return [...after.values()]
    .filter((record) => record.type === 'legal-requirement' && record.status !== 'retired')
    .filter((record) =>
      plainLinks(record).some(
        ({ to }) =>
          changed.has(to) || tests.has(to) || [...tests.values()].some((test) => test.protocols.includes(to)),
      ),
    )
    .map((record) => record.id)
    .sort();
};

/** Labels and texts for users that changed, are new, or rest on something that changed. */
export const naiveLabels = (before: PlainFile, after: PlainFile): readonly string[] => {
  const changed = naiveChanged(before, after);
  return [...after.values()]
    .filter(
      (record) =>
        record.type === 'design-output' &&
        record.status !== 'retired' &&
        ['label', 'packaging', 'instructions for use'].includes(String(record.fields['kind'])),
    )
    .filter(
      (record) =>
        !before.has(record.id) ||
        changed.has(record.id) ||
        [...changed].some((id) => restsOn(after, record.id, id)),
    )
    .map((record) => record.id)
    .sort();
};
