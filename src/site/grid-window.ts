interface WindowInputs {
  readonly table: HTMLTableElement;
  readonly body: HTMLTableSectionElement;
  readonly scroll: HTMLElement;
  readonly count: number;
  readonly rowAt: (position: number) => HTMLTableRowElement;
}

/** Rows that are drawn beyond either edge of what is seen. */
const spare = 10;

/** The same right after a jump; the others follow in the next frame, so that no frame waits for all of them. */
const spareAtFirst = 2;

const spacer = (): HTMLTableRowElement => {
  const row = document.createElement('tr');
  row.className = 'spacer';
  row.setAttribute('aria-hidden', 'true');
  const cell = document.createElement('td');
  cell.colSpan = 1000;
  row.append(cell);
  return row;
};

/** Brings the rows of a table in line with a list; what is there already stays where it is, and is not laid out again. */
const setRows = (body: HTMLTableSectionElement, rows: readonly HTMLTableRowElement[]): void => {
  const wanted = new Set(rows);
  for (const row of [...body.rows]) if (!wanted.has(row)) row.remove();
  let next = body.firstChild;
  for (const row of rows)
    if (row === next) next = row.nextSibling;
    else body.insertBefore(row, next);
};

/**
 * Shows the rows of a long table that are in sight, all of one height, and room for the others; gives the function that
 * ends it.
 */
export const showWindow = ({ table, body, scroll, count, rowAt }: WindowInputs): (() => void) => {
  // The height of a row is the style sheet's; the first row tells it.
  body.replaceChildren(rowAt(0));
  const height = Math.max(20, body.rows[0]?.getBoundingClientRect().height ?? 0);
  const [above, below] = [spacer(), spacer()];
  let [from, to] = [-1, -1];
  let waiting = 0;
  /** Whether spare rows are still to follow. */
  let isPart = false;
  /** The row that holds the focus, and its place; it stays in the page though it is out of sight. */
  const focused = (): { readonly row: HTMLTableRowElement; readonly position: number } | undefined => {
    const row = document.activeElement?.closest('tr');
    const position = Number(row?.getAttribute('aria-rowindex') ?? Number.NaN) - 2;
    return row && body.contains(row) && position >= 0 ? { row, position } : undefined;
  };
  const draw = (): void => {
    waiting = 0;
    const inSight = Math.ceil(scroll.clientHeight / height);
    const top = Math.floor(scroll.scrollTop / height);
    const first = Math.max(0, Math.min(top - spare, count - inSight - 2 * spare));
    const last = Math.min(count, first + inSight + 2 * spare);
    if (!isPart && from !== -1 && Math.abs(first - from) < spare / 2 && first !== 0) return;
    if (!isPart && first === from) return;
    isPart = from !== -1 && (first >= to || last <= from);
    from = isPart ? Math.max(first, top - spareAtFirst) : first;
    to = isPart ? Math.min(last, top + inSight + spareAtFirst) : last;
    if (isPart) ask();
    const rows = Array.from({ length: to - from }, (_, offset) => {
      const row = rowAt(from + offset);
      row.setAttribute('aria-rowindex', String(from + offset + 2));
      return row;
    });
    const kept = focused();
    const isAbove = kept !== undefined && kept.position < from;
    const isBelow = kept !== undefined && kept.position >= to;
    above.style.height = `${(from - (isAbove ? 1 : 0)) * height}px`;
    below.style.height = `${(count - to - (isBelow ? 1 : 0)) * height}px`;
    // A row that is moved loses the focus, so the room around it moves instead.
    above.remove();
    below.remove();
    setRows(body, [...(isAbove ? [kept.row] : []), above, ...rows, below, ...(isBelow ? [kept.row] : [])]);
  };
  /** Tab goes on from the row that has the focus, so the rows next to it must be there before it does. */
  const goOn = (event: KeyboardEvent): void => {
    if (event.key !== 'Tab') return;
    const kept = focused();
    if (!kept) return;
    const isNear =
      kept.position >= from &&
      kept.position < to &&
      (kept.position > from || from === 0) &&
      (kept.position < to - 1 || to === count);
    if (isNear) return;
    scroll.scrollTop = Math.max(0, kept.position * height - scroll.clientHeight / 2);
    from = -1;
    draw();
  };
  const ask = (): void => {
    if (waiting === 0) waiting = requestAnimationFrame(draw);
  };
  table.setAttribute('aria-rowcount', String(count + 1));
  scroll.addEventListener('scroll', ask, { passive: true });
  scroll.addEventListener('keydown', goOn);
  addEventListener('resize', ask);
  draw();
  return () => {
    table.removeAttribute('aria-rowcount');
    scroll.removeEventListener('scroll', ask);
    scroll.removeEventListener('keydown', goOn);
    removeEventListener('resize', ask);
    if (waiting !== 0) cancelAnimationFrame(waiting);
  };
};
