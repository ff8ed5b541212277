import { readFileSync } from 'node:fs';
import { fromMarkdown } from 'mdast-util-from-markdown';
import { toString } from 'mdast-util-to-string';
import { parse } from 'yaml';
import type { ApprovalSignature, Signatures } from '../../src/graph/approval-signatures.ts';

export interface Case {
  readonly title: string;
  readonly passes: boolean;
  readonly files: ReadonlyMap<string, string>;
  /** Lines `FILE:LINE RECORD message part`, in order. */
  readonly expected: readonly string[];
  /** What git says of the approvals, for checks of signed mode. */
  readonly signatures?: Signatures;
}

/**
 * Reads a suite of cases. A heading `## Passes: …` or `## Fails: …` opens a case; fenced blocks whose info string ends
 * with a path (` ```yaml plinth.yaml `, ` ```markdown needs/UN-01.md `, ` ```csv data/VR-01.csv `) are its files; the
 * block ` ```findings ` lists what must be found. Files before the first case belong to every case; a case may replace
 * them. The block ` ```signatures ` says by record and index how an approval came in (`VP-01 0: { commit, signature }`), or
 * under `reason` why signatures were not checked. Records are written in full, so a suite shows what real content looks like.
 */
export const readCases = (path: string): readonly Case[] => {
  const tree = fromMarkdown(readFileSync(path, 'utf8'));
  const shared = new Map<string, string>();
  const cases: {
    title: string;
    passes: boolean;
    files: Map<string, string>;
    expected: string[];
    signatures?: Signatures;
  }[] = [];
  for (const node of tree.children) {
    if (node.type === 'heading' && node.depth === 2) {
      const match = /^(Passes|Fails): (.+)$/.exec(toString(node));
      if (!match)
        throw new Error(`${path}: a case starts with "Passes: " or "Fails: ", not with "${toString(node)}"`);
      cases.push({
        title: match[2] ?? '',
        passes: match[1] === 'Passes',
        files: new Map(shared),
        expected: [],
      });
    }
    if (node.type !== 'code') continue;
    const current = cases.at(-1);
    if (node.lang === 'findings')
      current?.expected.push(...node.value.split('\n').filter((line) => line !== ''));
    else if (node.lang === 'signatures' && current) current.signatures = signaturesFrom(node.value);
    else if (node.meta) (current?.files ?? shared).set(node.meta.trim(), `${node.value}\n`);
  }
  return cases;
};

const signaturesFrom = (yaml: string): Signatures => {
  const facts = parse(yaml) as Record<string, ApprovalSignature> & { readonly reason?: string };
  return facts.reason === undefined
    ? { checked: true, of: (id, index) => facts[`${id} ${index}`] ?? {} }
    : { checked: false, reason: facts.reason };
};
