/** A button that copies the sentence to quote a page by. */
export const addCitationButton = (): void => {
  const words = document.getElementById('citation-text');
  if (!words) return;
  const button = document.createElement('button');
  button.type = 'button';
  button.textContent = 'Copy the citation';
  const said = document.createElement('span');
  said.setAttribute('role', 'status');
  said.className = 'quiet';
  button.addEventListener('click', () => {
    const done = (text: string): void => {
      said.textContent = ` ${text}`;
    };
    const select = (): void => {
      // Where the clipboard is closed to pages, the words are selected, to be copied by hand.
      getSelection()?.selectAllChildren(words);
      done('Selected: copy it with your keyboard.');
    };
    if (!navigator.clipboard) {
      select();
      return;
    }
    navigator.clipboard.writeText(words.textContent ?? '').then(() => done('Copied.'), select);
  });
  words.after(button, said);
};
