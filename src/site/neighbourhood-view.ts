/** Drawings of neighbours that are wider than the screen begin with the record that they are about in the middle. */
export const showCentres = (): void => {
  for (const box of document.querySelectorAll<HTMLElement>('.neighbourhood')) {
    const centre = box.querySelector('.centre');
    const frame = centre?.closest<HTMLElement>('.scroll') ?? box;
    if (!centre || frame.scrollWidth <= frame.clientWidth) continue;
    const own = centre.getBoundingClientRect();
    const around = frame.getBoundingClientRect();
    frame.scrollLeft += own.left + own.width / 2 - (around.left + around.width / 2);
  }
};
