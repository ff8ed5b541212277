import type { RunningStories, Story } from '../../house/house-style.ts';
import { houseNamespaces } from '../../house/xml-tree.ts';
import type { Page } from './look.ts';
import type { Manuscript, Relationship } from './manuscript.ts';
import { partRelationship } from './package.ts';
import { footerLines, headerLines, storyLines, supplement } from './running-lines.ts';
import { wordNamespaces, xmlHead } from './xml.ts';

/** Where a running head or foot stands. */
export type RunningPlace = 'cover' | 'portrait' | 'landscape' | 'evenPortrait' | 'evenLandscape';

/** A part of the package with its relationships. */
export interface RunningPart {
  readonly place: RunningPlace;
  readonly type: 'header' | 'footer';
  readonly file: string;
  readonly id: string;
  readonly xml: string;
  readonly relationships: readonly Relationship[];
}

/** The running heads and feet of a document: those of the house style, completed, or its own. */
export function writeRunningParts(manuscript: Manuscript): readonly RunningPart[] {
  const { house } = manuscript;
  const pictures = new Map(
    [...(house?.pictures.keys() ?? [])].map((path, index) => [path, picturePath(path, index + 1)] as const),
  );
  for (const [path, target] of pictures)
    manuscript.media.set(`word/${target}`, house?.pictures.get(path) ?? new Uint8Array());
  return places
    .flatMap(({ place, number }) => [
      { place, number, type: 'header' as const, lines: headOf(place, manuscript) },
      { place, number, type: 'footer' as const, lines: footOf(place, manuscript) },
    ])
    .filter(({ lines }) => lines.xml !== '')
    .map(({ place, number, type, lines: { xml, story } }) => {
      const tag = type === 'header' ? 'w:hdr' : 'w:ftr';
      const namespaces = house === undefined ? wordNamespaces : houseNamespaces;
      return {
        place,
        type,
        file: `${type}${number}.xml`,
        id: `rId${(type === 'header' ? 3 : 4) + 2 * number}`,
        xml: `${xmlHead}<${tag} ${namespaces}>${xml}</${tag}>`,
        relationships: [...(story?.pictures ?? [])].map(([id, path]) =>
          partRelationship(id, 'image', pictures.get(path) ?? ''),
        ),
      };
    });
}

const places: readonly { readonly place: RunningPlace; readonly number: number }[] = [
  { place: 'portrait', number: 1 },
  { place: 'landscape', number: 2 },
  { place: 'cover', number: 3 },
  { place: 'evenPortrait', number: 4 },
  { place: 'evenLandscape', number: 5 },
];

/** `media/house1.png`; the numbers never meet those of figures. */
const picturePath = (path: string, number: number): string =>
  `media/house${number}${path.slice(path.lastIndexOf('.')).toLowerCase()}`;

interface Lines {
  readonly xml: string;
  readonly story?: Story | undefined;
}

const storyOf = (stories: RunningStories | undefined, place: RunningPlace): Story | undefined =>
  stories?.[place];

function pageOf(place: RunningPlace, { paper }: Manuscript): Page {
  return place.toLowerCase().endsWith('landscape') ? paper.landscape : paper.portrait;
}

/** Whether even pages have lines of their own. */
const isUsed = (place: RunningPlace, { house }: Manuscript): boolean =>
  !place.startsWith('even') || house?.evenAndOdd === true;

function headOf(place: RunningPlace, manuscript: Manuscript): Lines {
  const { house } = manuscript;
  if (!isUsed(place, manuscript)) return { xml: '' };
  const story = storyOf(house?.header, place);
  if (story) return { xml: storyLines(story, manuscript), story };
  if (place === 'cover' || hasAny(house?.header)) return { xml: place === 'cover' ? '' : '<w:p/>' };
  return { xml: headerLines(pageOf(place, manuscript), manuscript) };
}

function footOf(place: RunningPlace, manuscript: Manuscript): Lines {
  const { house } = manuscript;
  if (!isUsed(place, manuscript)) return { xml: '' };
  const story = storyOf(house?.footer, place);
  const page = pageOf(place, manuscript);
  if (place === 'cover') return story ? { xml: storyLines(story, manuscript), story } : { xml: '' };
  const head = storyOf(house?.header, place);
  // A head of ours shows number and revision.
  const hasOwnHead = !hasAny(house?.header);
  if (!hasAny(house?.footer) && hasOwnHead) return { xml: footerLines(page, manuscript) };
  const shows = (what: 'showsNumber' | 'showsPage'): boolean => Boolean(head?.[what] || story?.[what]);
  const more = supplement(
    page,
    { number: hasOwnHead || shows('showsNumber'), page: shows('showsPage') },
    manuscript,
  );
  const own = story ? storyLines(story, manuscript) : '';
  return { xml: own + more || '<w:p/>', ...(story ? { story } : {}) };
}

/** Whether the house style has lines for the pages after the cover. */
const hasAny = (stories: RunningStories | undefined): boolean =>
  stories?.portrait !== undefined || stories?.evenPortrait !== undefined;
