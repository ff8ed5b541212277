import type { Document, Inline, Signature, Table, Tone } from '../document/model.ts';

/** The document's particulars as covers show them; empty ones are left out. */
export function documentParticulars(
  document: Document,
): readonly { readonly name: string; readonly value: readonly Inline[] }[] {
  const entries: readonly (readonly [string, string])[] = [
    ['Document number', document.number],
    // Other documents refer to it by this id, not by the maker's number.
    ['Record', document.id === document.number ? '' : document.id],
    ['Revision', document.revision],
    ['Status', document.status],
    ['Content as of', document.date],
    ['Product', document.product],
    ['Organisation', document.organisation],
  ];
  return entries
    .filter(([, value]) => value !== '')
    .map(([name, value]) => ({
      name,
      value: [{ kind: 'text' as const, value }],
    }));
}

/** What an approval's state means to the reader. */
function stateTone(state: string): Tone {
  if (state === 'in force') return 'good';
  if (state === 'earlier') return 'quiet';
  return state === 'lapsed' ? 'bad' : 'caution';
}

/** Approvals as a table: who, in what role, for what, when and whether it still holds. */
export function approvalsTable(signatures: readonly Signature[]): Table {
  const text = (value: string) => ({
    children: [{ kind: 'text' as const, value: value === '' ? '–' : value }],
  });
  return {
    kind: 'table',
    description: 'Approvals of the document with their state',
    columns: [
      { title: 'Role', width: 22 },
      { title: 'Name', width: 22 },
      { title: 'Meaning', width: 28 },
      { title: 'Date', width: 14 },
      { title: 'State', width: 14 },
    ],
    rows: signatures.map((signature) => ({
      cells: [
        text(signature.role),
        text(signature.name),
        text(signature.meaning),
        text(signature.date),
        {
          children: [
            {
              kind: 'text',
              value: signature.state,
              tone: stateTone(signature.state),
            },
          ],
        },
      ],
    })),
  };
}
