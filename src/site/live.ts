/** Pages of `plinth serve` show the newest state by themselves, or say why there is none. */
const events = new EventSource('/events');

events.addEventListener('changed', () => location.reload());

events.addEventListener('trouble', (event) => {
  const banner = document.querySelector('.trouble') ?? document.createElement('p');
  banner.className = 'trouble';
  banner.setAttribute('role', 'alert');
  banner.textContent = `This page shows an earlier state. ${event.data}`;
  document.body.append(banner);
});
