import file from './biological-endpoints.json' with { type: 'json' };

export type ContactDuration = 'limited' | 'prolonged' | 'long-term';

/** One row of the tables of ISO 10993-1: endpoints that a kind of contact asks for. */
export interface EndpointRow {
  readonly edition: string;
  /** Kind of device; the edition of 2025 does not divide by it. */
  readonly device?: string;
  readonly tissues: readonly string[];
  readonly duration: ContactDuration;
  readonly endpoints: readonly string[];
  /** Asked for only where something suggests an effect. */
  readonly where_suspected?: readonly string[];
  /** Key of `EndpointSource.provenance`: how the row is known. */
  readonly provenance: string;
}

interface EndpointSource {
  readonly standard: string;
  readonly endpoints: readonly string[];
  readonly provenance: Readonly<Record<string, string>>;
  readonly caution: string;
}

const { meta, rows } = file as { readonly meta: EndpointSource; readonly rows: readonly EndpointRow[] };

/** The standard, its endpoints in the order of the table, how the rows are known, and what they are not. */
export const endpointSource = meta;

export const endpointRows: readonly EndpointRow[] = rows;

/**
 * The row for a kind of contact in an edition; undefined where Plinth has none, and a person has to read the standard.
 * Without a kind of device, the edition of 2018 gives its row only where all kinds share the tissue's endpoints.
 */
export const endpointRow = ({
  edition,
  device,
  tissue,
  duration,
}: {
  readonly edition: string;
  readonly device: string | undefined;
  readonly tissue: string;
  readonly duration: string;
}): EndpointRow | undefined => {
  const found = endpointRows.filter(
    (row) =>
      row.edition === edition &&
      row.duration === duration &&
      row.tissues.includes(tissue) &&
      (row.device === undefined || device === undefined || row.device === device),
  );
  const [first] = found;
  const same = (row: EndpointRow): boolean => row.endpoints.join() === first?.endpoints.join();
  return found.every(same) ? first : undefined;
};
