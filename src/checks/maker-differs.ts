import type { Place } from '../findings/finding.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import { holdsWording, plainWords } from '../records/plain-words.ts';
import type { Project } from '../records/project.ts';
import { proseOnly } from '../records/prose.ts';
import { placeInBody, placeOf, type RecordOf } from '../records/record.ts';
import { isTranslation } from '../records/translation.ts';
import { isOfSymbolTable } from '../regulation/label-symbols.ts';
import { type Draft, defineCheck } from './check.ts';

type Output = RecordOf<'design-output'>;
type Document = RecordOf<'document'>;

interface Known {
  readonly maker: string;
  /** Parts of the address that have to stand wherever it does. */
  readonly address: readonly string[];
}

const inBrackets = /^<[^<>]{1,200}>$/;

/**
 * Parts between commas, without remarks in parentheses. The country at the end is often written as a code, so that it is
 * not asked for where street and town stand before it.
 */
const addressParts = (address: string): readonly string[] => {
  const parts = address
    .replace(/\([^()]{0,200}\)/g, ' ')
    .split(/[,;\n]/)
    .map((part) => part.replace(/\s+/g, ' ').trim())
    .filter((part) => /[\p{L}\p{N}]/u.test(part));
  return parts.length > 2
    ? parts.filter((part, index) => index < parts.length - 1 || /\d/.test(part))
    : parts;
};

const knownOf = ({ fields }: Project): Known | undefined => {
  const { maker } = fields.device;
  const { address } = fields.declaration ?? {};
  if (maker === undefined || maker.trim() === '' || inBrackets.test(maker.trim())) return undefined;
  return {
    maker,
    address: address === undefined || inBrackets.test(address.trim()) ? [] : addressParts(address),
  };
};

const related = ({ fields, yaml }: Project, what: 'name' | 'address') =>
  what === 'name'
    ? { place: yaml.place(['device', 'maker']), message: `the maker, ${fields.device.maker}` }
    : {
        place: yaml.place(['declaration', 'address']),
        message: `the address, ${fields.declaration?.address}`,
      };

/** `Name and address of the manufacturer`, `as on the lid`: words that lead to the name instead of giving it. */
const leadsElsewhere = (content: string): boolean =>
  /^(?:as|see|same)\b/i.test(content.trim()) ||
  (/\b(?:name|address)\b/i.test(content) && !/\d/.test(content));

const holdsMaker = (text: string, { maker }: Known): boolean =>
  /:device\[\s{0,5}maker\s{0,5}\]/.test(text) || holdsWording(text, maker);

const lacksOf = (text: string, known: Known): 'name' | 'address' | undefined => {
  if (!holdsMaker(text, known)) return 'name';
  return known.address.every((part) => holdsWording(text, part)) ? undefined : 'address';
};

const makerClauses: ReadonlySet<string> = new Set(['23.2(c)', '23.3(d)']);

/** Symbol of the manufacturer in ISO 15223-1. */
const makerSymbol = '5.1.1';

const judgeOutput = (output: Output, known: Known, project: Project): readonly Draft[] => {
  const texts: readonly { text: string; where: string; besideSymbol?: true; place: () => Place }[] = [
    ...(output.fields.particulars ?? []).flatMap(({ clause, content }, index) =>
      makerClauses.has(clause) && !leadsElsewhere(content)
        ? [
            {
              text: content,
              where: `the particular ${clause}`,
              place: () => placeOf(output, 'particulars', index, 'content'),
            },
          ]
        : [],
    ),
    ...(output.fields.symbols ?? []).flatMap(({ symbol, standard, beside }, index) =>
      symbol === makerSymbol && isOfSymbolTable(standard) && beside !== undefined && !leadsElsewhere(beside)
        ? [
            {
              text: beside,
              where: `the words beside the symbol ${symbol}`,
              besideSymbol: true as const,
              place: () => placeOf(output, 'symbols', index, 'beside'),
            },
          ]
        : [],
    ),
  ];
  return texts.flatMap(({ text, where, besideSymbol, place }): readonly Draft[] => {
    const lacks = lacksOf(text, known);
    // Beside a symbol the name may stand alone: the address is asked of the particulars.
    if (lacks === undefined || (lacks === 'address' && besideSymbol && !/\d/.test(text))) return [];
    return [
      {
        place: place(),
        message: `${output.id}: ${where} ${besideSymbol ? 'give' : 'gives'} "${plainWords(text)}", which is not the ${lacks} of the maker in plinth.yaml`,
        hint: 'Correct whichever is wrong, here and on the artwork.',
        records: [output.id],
        related: [related(project, lacks)],
      },
    ];
  });
};

const judgeWording = (
  output: Output,
  known: Known,
  graph: TraceGraph,
  project: Project,
): readonly Draft[] => {
  const document = graph.recordOf('document', output.fields.wording ?? '');
  if (!document || document.status === 'retired') return [];
  const lacks = lacksOf(proseOnly(document.body), known);
  if (lacks === undefined || (lacks === 'name' && named(document, known, project).length > 0)) return [];
  return [
    {
      place: placeOf(output, 'wording'),
      message: `${document.id} "${document.title}" holds the words of ${output.id} and does not give the ${lacks} of the maker as plinth.yaml has it`,
      hint: `Put it into ${document.id}, or correct plinth.yaml.`,
      records: [output.id, document.id],
      related: [
        related(project, lacks),
        { place: placeOf(document, 'id'), message: `the words of ${output.id}` },
      ],
    },
  ];
};

const introduction = /\b(?:(?:manufacturer|maker)\*{0,2}\s?:|(?:made|manufactured) by)\*{0,2}\s{1,3}/gi;

/** Names of firms by the form of the company at their end. */
const firm =
  /(?:\p{Lu}[\p{L}\p{N}&-]{0,30},?\s){1,4}(?:Ltd|Limited|Inc|LLC|plc|GmbH|AG|SE|SA|SAS|S\.A\.|BV|B\.V\.|NV|Srl|S\.r\.l\.|SpA|S\.p\.A\.|Oy|ApS|A\/S|Corp|Corporation)(?![\p{L}\p{N}])/gu;

/** Where a document draws the declaration. */
const declaration = /^```plinth declaration\b/m;

/** Passages that name somebody else as the maker. In the declaration any firm that plinth.yaml does not know is one. */
const named = (document: Document, known: Known, project: Project): readonly Draft[] => {
  const text = proseOnly(document.body);
  const others = JSON.stringify(project.fields.declaration ?? {});
  const introduced = [...text.matchAll(introduction)].flatMap((match) => {
    const offset = match.index + match[0].length;
    const [rest = ''] = text.slice(offset, offset + 200).split(/\n|\||(?<=[\p{L}]{3}[.;])\s/u);
    const name = rest.trimEnd();
    return /^["*]{0,3}\p{Lu}/u.test(name) && !holdsMaker(name, known) ? [{ offset, name }] : [];
  });
  const firms = declaration.test(document.body)
    ? [...text.matchAll(firm)].flatMap((match) =>
        holdsMaker(match[0], known) ||
        others.includes(match[0]) ||
        introduced.some(({ offset, name }) => match.index >= offset && match.index < offset + name.length)
          ? []
          : [{ offset: match.index, name: match[0] }],
      )
    : [];
  return [...introduced, ...firms].map(({ offset, name }) => ({
    place: placeInBody(document, offset, name.length),
    message: `${document.id} names "${plainWords(name).split(' ').slice(0, 8).join(' ')}" as the maker, and plinth.yaml has ${known.maker}`,
    hint: 'Write ":device[maker]", or say in other words what the other firm does.',
    records: [document.id],
    related: [related(project, 'name')],
  }));
};

/** Documents that speak to users or authorities in the name of the maker. */
const speaksForMaker = (document: Document, graph: TraceGraph): boolean =>
  document.fields.kind !== undefined ||
  declaration.test(document.body) ||
  graph
    .recordsOf('design-output')
    .some(({ fields, status }) => status !== 'retired' && fields.wording === document.id);

export const makerDiffers = defineCheck({
  code: 'maker-differs',
  level: 'error',
  title: 'Label, instructions or declaration name another maker or another address',
  basis:
    'Regulation (EU) 2017/745 Annex I 23.2(c), 23.3(d) and 23.4(a), Annex IV item 1; that the words are the same is common practice, no source',
  explain:
    'plinth.yaml has the maker under `device.maker` and the address under `declaration.address`. The particular 23.2(c) or 23.3(d), the words beside the symbol of the manufacturer, or the document that holds the words of the instructions give another name or another address, or none. Or material for users, instructions or the declaration name another firm as the maker ("Manufacturer: ...", "made by ..."; in the declaration any firm that plinth.yaml does not know). Remarks in parentheses make no difference, nor does the country where street and town stand. An address is compared only where plinth.yaml has one.\n\nThe maker is who answers for the device. A certificate and a registration hold for one name and one address; a label with another one is that of another manufacturer, and a report of an incident goes astray.\n\nCorrect whichever is wrong. In documents write `:device[maker]`.',
  examines: 'labels, instructions, material for users and declarations',
  subjects: ({ graph, project }) => {
    const known = knownOf(project);
    if (!known) return [];
    return [
      ...graph
        .recordsOf('design-output')
        .filter(
          ({ status, fields }) =>
            status !== 'retired' && (fields.particulars ?? fields.symbols ?? fields.wording) !== undefined,
        )
        .map((output) => ({ output, document: undefined, known })),
      ...graph
        .recordsOf('document')
        .filter((document) => document.status !== 'retired' && speaksForMaker(document, graph))
        .map((document) => ({ output: undefined, document, known })),
    ];
  },
  judge: ({ output, document, known }, { graph, project }): readonly Draft[] => {
    if (document) return named(document, known, project);
    if (!output || isTranslation(output, project)) return [];
    return [
      ...judgeOutput(output, known, project),
      ...(output.fields.kind === 'instructions for use' ? judgeWording(output, known, graph, project) : []),
    ];
  },
});
