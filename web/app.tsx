import { lazy, LocationProvider, Route, Router, useLocation } from 'preact-iso';
import { Banner } from './parts/banner.tsx';
import { StateProvider } from './parts/fleetState.tsx';
import { Heading } from './parts/heading.tsx';
import { Attention } from './pages/attention.tsx';

const Units = lazy(() => import('./pages/units.tsx').then((page) => page.Units));
const UnitPage = lazy(() => import('./pages/unit.tsx').then((page) => page.UnitPage));
const History = lazy(() => import('./pages/history.tsx').then((page) => page.HistoryPage));
const Find = lazy(() => import('./pages/find.tsx').then((page) => page.FindPage));
const Desk = lazy(() => import('./pages/desk.tsx').then((page) => page.DeskPage));
const Samples = lazy(() => import('./pages/samples.tsx').then((page) => page.SamplesPage));
const WearMap = lazy(() => import('./pages/wearMap.tsx').then((page) => page.WearMapPage));
const Shop = lazy(() => import('./pages/shop.tsx').then((page) => page.ShopPage));
const Supplies = lazy(() => import('./pages/supplies.tsx').then((page) => page.SuppliesPage));
const OilLog = lazy(() => import('./pages/oilLog.tsx').then((page) => page.OilLogPage));
const ShopRecords = lazy(() => import('./pages/shopRecords.tsx').then((page) => page.ShopRecordsPage));
const Card = lazy(() => import('./pages/card.tsx').then((page) => page.CardPage));
const Intake = lazy(() => import('./pages/intake.tsx').then((page) => page.Intake));
const Money = lazy(() => import('./pages/money.tsx').then((page) => page.MoneyPage));
const Proof = lazy(() => import('./pages/proof.tsx').then((page) => page.ProofPage));
const Method = lazy(() => import('./pages/method.tsx').then((page) => page.Method));
const VisitsPage = lazy(() => import('./pages/visits.tsx').then((page) => page.VisitsPage));
const Settings = lazy(() => import('./pages/settings.tsx').then((page) => page.SettingsPage));
const Monitor = lazy(() => import('./pages/monitor.tsx').then((page) => page.Monitor));

function NoPage() {
  return (
    <main id="page">
      <h1>There is no such page</h1>
      <p>
        Go to <a href="/">Attention</a>.
      </p>
    </main>
  );
}

function Pages() {
  const { path } = useLocation();
  const wall = path === '/monitor';
  return (
    <>
      {!wall && <Heading path={path} />}
      {!wall && <Banner />}
      <Router>
        <Route path="/" component={Attention} />
        <Route path="/units" component={Units} />
        <Route path="/units/:unitNumber" component={UnitPage} />
        <Route path="/units/:unitNumber/history" component={History} />
        <Route path="/find" component={Find} />
        <Route path="/desk" component={Desk} />
        <Route path="/samples" component={Samples} />
        <Route path="/wear" component={WearMap} />
        <Route path="/shop" component={Shop} />
        <Route path="/shop/supplies" component={Supplies} />
        <Route path="/shop/oil" component={OilLog} />
        <Route path="/shop/records" component={ShopRecords} />
        <Route path="/card/:visitId" component={Card} />
        <Route path="/intake" component={Intake} />
        <Route path="/money" component={Money} />
        <Route path="/proof" component={Proof} />
        <Route path="/method" component={Method} />
        <Route path="/visits" component={VisitsPage} />
        <Route path="/settings" component={Settings} />
        <Route path="/monitor" component={Monitor} />
        <Route default component={NoPage} />
      </Router>
    </>
  );
}

/** The whole application. */
export function App() {
  return (
    <LocationProvider>
      <StateProvider>
        <Pages />
      </StateProvider>
    </LocationProvider>
  );
}
