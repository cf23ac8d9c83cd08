const places = [
  ['/shop', 'Plan'],
  ['/visits', 'Visits and job cards'],
  ['/shop/supplies', 'Orders and shelves'],
  ['/shop/oil', 'Used and bulk oil'],
  ['/shop/records', 'People, places, days'],
] as const;

/** The pages of the shop, one beside the other. */
export function ShopLinks({ at }: { at: string }) {
  return (
    <nav class="shop-links no-print" aria-label="Shop">
      {places.map(([href, title]) => (
        <a key={href} href={href} aria-current={href === at ? 'page' : undefined}>
          {title}
        </a>
      ))}
    </nav>
  );
}
