/** Runs before the page is shown, so that a reader who chose light or dark never sees the other one flash up. */

const key = 'plinth-theme';

const chosen = (): string | null => {
  // A browser may keep nothing for files that were opened from the disk.
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
};

const theme = chosen();
if (theme === 'light' || theme === 'dark') document.documentElement.dataset['theme'] = theme;
