import { evidenceTypes } from '../evidence/evidence-types.ts';
import type { Finding } from '../findings/finding.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import { awaiting, type UnreadRecord } from '../graph/unread-records.ts';
import type { Project } from '../records/project.ts';
import type { Check } from './check.ts';

type Awaits = Pick<Check, 'awaits' | 'awaitsAnywhere' | 'awaitsProject'>;

/** Findings of computations that miss a record, as a check may. */
const computations: Readonly<Record<string, Awaits>> = {
  'method-inputs-missing': { awaits: ['design-output', 'verification-protocol'] },
};

/** Types of the records that carry results, and what the results rest on. */
const resultTypes = [...evidenceTypes, 'design-output', 'test-method'];

/** Findings on what a document takes in; their messages name the record. */
const takenIn: ReadonlySet<string> = new Set(['unknown-value', 'view-body-wrong']);
/** Findings on places that views draw from records: which one is missing cannot be told. */
const drawn: ReadonlySet<string> = new Set(['unknown-anchor']);

/** What a message says that plinth.yaml lacks: a field of the device, or a wording. */
const lacksInProject =
  /plinth\.yaml has no (?:device |wording ")([A-Za-z0-9_]{1,80})|states "([A-Za-z0-9_]{1,80})", a wording that/;

/** Whether a finding says that something is missing in plinth.yaml that is written there and could not be read. */
const isUnreadField = (message: string, unread: NonNullable<Project['unread']>): boolean => {
  const match = lacksInProject.exec(message);
  const name = match?.[1] ?? match?.[2];
  return name !== undefined && unread.some((path) => path.length < 2 || path.at(-1) === name);
};

/**
 * Sets apart the findings that may only follow from records which cannot be read: what they show, name or decide is
 * unknown, and to say that it is missing would be wrong. Each of these records has a finding of its own,
 * and so has each field of plinth.yaml that cannot be read.
 */
export const holdBack = (
  findings: readonly Finding[],
  checks: readonly Check[],
  graph: TraceGraph,
  unread: readonly UnreadRecord[],
  unreadFields: NonNullable<Project['unread']> = [],
): { readonly standing: readonly Finding[]; readonly heldBack: number } => {
  if (unread.length === 0 && unreadFields.length === 0) return { standing: findings, heldBack: 0 };
  const awaits = new Map<string, Awaits>([
    ...Object.entries(computations),
    ...checks.map((check) => [check.code, check] as const),
  ]);
  const ids = new Set(unread.map((each) => each.id));
  const types = new Set(unread.map((each) => each.type));
  const around = new Map<string, ReadonlySet<string>>();
  const aroundOf = (code: string, awaited: readonly string[]): ReadonlySet<string> => {
    const known = around.get(code) ?? awaiting(graph, unread, new Set(awaited));
    around.set(code, known);
    return known;
  };
  const follows = ({ code, records, data, message }: Finding): boolean => {
    if (unreadFields.length > 0 && (awaits.get(code)?.awaitsProject || isUnreadField(message, unreadFields)))
      return true;
    if (unread.length === 0) return false;
    if (drawn.has(code)) return true;
    if (takenIn.has(code)) {
      const near = aroundOf(code, resultTypes);
      return message.split(/[^A-Za-z0-9-]+/).some((word) => ids.has(word) || near.has(word));
    }
    const { awaits: awaited, awaitsAnywhere } = awaits.get(code) ?? {};
    if (awaited === undefined) return false;
    if (awaited === 'named') return [...records, data?.['target']].some((id) => ids.has(String(id)));
    if (awaitsAnywhere) return awaited.some((type) => types.has(type));
    const near = aroundOf(code, awaited);
    return records.some((id) => near.has(id));
  };
  const standing = findings.filter((finding) => !follows(finding));
  return { standing, heldBack: findings.length - standing.length };
};
