import { useState } from 'preact/hooks';

interface View {
  readonly name: string;
  /** page with its query */
  readonly address: string;
}

const place = 'sumpwise.views';

function load(page: string): View[] {
  try {
    const all: unknown = JSON.parse(localStorage.getItem(place) ?? '[]');
    if (!Array.isArray(all)) return [];
    return (all as View[]).filter(
      (view) => typeof view.name === 'string' && String(view.address).startsWith(page),
    );
  } catch {
    return [];
  }
}

/** Views of a page that someone named on this computer: an address with its filter, order and columns. */
export function SavedViews({ page, address }: { page: string; address: string }) {
  const [views, setViews] = useState(() => load(page));
  const [name, setName] = useState('');
  const keep = (next: View[]): void => {
    localStorage.setItem(place, JSON.stringify(next));
    setViews(next);
  };
  const save = (event: Event): void => {
    event.preventDefault();
    const called = name.trim();
    if (called === '') return;
    keep([...views.filter((view) => view.name !== called), { name: called, address }]);
    setName('');
  };
  return (
    <details class="views no-print">
      <summary>{views.length === 0 ? 'Keep this view' : `Kept views (${views.length})`}</summary>
      {views.length > 0 && (
        <ul>
          {views.map((view) => (
            <li key={view.name}>
              <a href={view.address}>{view.name}</a>{' '}
              <button
                type="button"
                class="link"
                aria-label={`Forget ${view.name}`}
                onClick={() => keep(views.filter((other) => other !== view))}
              >
                Forget
              </button>
            </li>
          ))}
        </ul>
      )}
      <form onSubmit={save} class="filters">
        <label>
          Name of this view
          <input value={name} maxLength={60} onInput={(event) => setName(event.currentTarget.value)} />
        </label>
        <button type="submit">Keep on this computer</button>
      </form>
    </details>
  );
}
