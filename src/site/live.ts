/** Pages of `plinth serve` show the newest state by themselves, or say why there is none. */

const shown = document.documentElement.dataset['state'];

const say = (words: string): void => {
  const banner = document.querySelector('.trouble') ?? document.createElement('p');
  banner.className = 'trouble';
  banner.setAttribute('role', 'alert');
  banner.textContent = words;
  document.body.append(banner);
};

let events: EventSource | undefined;

const listen = (): void => {
  if (events) return;
  events = new EventSource('/events');
  events.addEventListener('state', (event) => {
    // Also after a pause, in which the folder may have changed or the server been started anew.
    if (event.data !== shown) location.reload();
    else document.querySelector('.trouble')?.remove();
  });
  events.addEventListener('trouble', (event) => say(`This page shows an earlier state. ${event.data}`));
};

// A browser keeps few connections to one place, so pages out of sight give theirs back.
const attend = (): void => {
  if (document.visibilityState === 'visible') listen();
  else {
    events?.close();
    events = undefined;
  }
};

document.addEventListener('visibilitychange', attend);
attend();
