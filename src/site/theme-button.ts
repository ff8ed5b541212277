const key = 'plinth-theme';

const isDark = (): boolean => {
  const chosen = document.documentElement.dataset['theme'];
  return chosen === undefined ? matchMedia('(prefers-color-scheme: dark)').matches : chosen === 'dark';
};

/** A button that changes between light and dark; the choice is kept where the browser allows it. */
export const addThemeButton = (tools: Element): void => {
  const button = document.createElement('button');
  button.type = 'button';
  button.className = 'theme';
  const name = (): void => {
    button.textContent = isDark() ? 'Light' : 'Dark';
    button.setAttribute('aria-label', isDark() ? 'Change to a light page' : 'Change to a dark page');
  };
  button.addEventListener('click', () => {
    const next = isDark() ? 'light' : 'dark';
    document.documentElement.dataset['theme'] = next;
    try {
      localStorage.setItem(key, next);
    } catch {
      // Then the choice holds for this page only.
    }
    name();
  });
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', name);
  name();
  tools.append(button);
};
