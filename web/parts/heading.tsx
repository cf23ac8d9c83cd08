const pages = [
  ['/', 'Attention'],
  ['/units', 'Units'],
  ['/find', 'Find a unit'],
  ['/shop', 'Shop plan'],
  ['/desk', 'Symptom desk'],
  ['/intake', 'Intake'],
  ['/money', 'Money'],
  ['/proof', 'Proof'],
  ['/method', 'Method'],
  ['/settings', 'Settings'],
] as const;

/** Name and pages; the page shown is marked by weight and line, and said to screen readers. */
export function Heading({ path }: { path: string }) {
  // visits and job cards belong to the shop
  const place = /^\/(visits|card)\b/.test(path) ? '/shop' : path;
  const shown = (href: string): boolean => (href === '/' ? place === '/' : place.startsWith(href));
  return (
    <header class="heading">
      <a class="skip" href="#page">
        To the page
      </a>
      <a class="name" href="/">
        Sumpwise
      </a>
      <nav aria-label="Pages">
        <ul>
          {pages.map(([href, title]) => (
            <li key={href}>
              <a href={href} aria-current={shown(href) ? 'page' : undefined}>
                {title}
              </a>
            </li>
          ))}
        </ul>
      </nav>
    </header>
  );
}
