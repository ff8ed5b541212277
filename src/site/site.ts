import { addCitationButton } from './citation-button.ts';
import { startGrids } from './grids.ts';
import { showCentres } from './neighbourhood-view.ts';
import { keepScrollStops } from './scroll-stops.ts';
import { addSearch } from './search-dialog.ts';
import { addThemeButton } from './theme-button.ts';

/** What scripts add to a page that reads without them: search, tables with tools, light and dark, copying a citation. */
const start = (): void => {
  const tools = document.getElementById('tools');
  const root = document.documentElement.dataset['root'] ?? '';
  if (tools) {
    addSearch(tools, root);
    addThemeButton(tools);
  }
  addCitationButton();
  startGrids();
  showCentres();
  keepScrollStops();
  document.documentElement.dataset['ready'] = 'yes';
};

start();
