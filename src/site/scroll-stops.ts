/**
 * Boxes that may scroll sideways can be reached by the Tab key, so that arrows move them. Those in which everything is in
 * sight are no stop on the way: a page of many small tables would have a hundred.
 */
export const keepScrollStops = (): void => {
  const boxes = document.querySelectorAll<HTMLElement>('.scroll[tabindex]');
  const judge = (box: HTMLElement): void => {
    const scrolls = box.scrollWidth > box.clientWidth || box.scrollHeight > box.clientHeight;
    if (scrolls) box.tabIndex = 0;
    else if (document.activeElement !== box) box.removeAttribute('tabindex');
  };
  const watch = new ResizeObserver((entries) => {
    for (const { target } of entries) judge(target as HTMLElement);
  });
  for (const box of boxes) watch.observe(box);
};
