import { ErrorBoundary, lazy, Route as AnyRoute, Router, type RouteProps } from 'preact-iso';
import { useRef } from 'preact/hooks';
import { useWords } from '../words/words.ts';
import { useSession } from '../session/session.ts';
import { useArrival } from './arrival.ts';
import { RoomsBar } from './rooms-bar.tsx';
import { useAutoLock } from './use-auto-lock.ts';

const BenchPage = lazy(() => import('../pages/bench/bench-page.tsx').then(({ BenchPage }) => BenchPage));
const CommissionList = lazy(() =>
  import('../pages/commissions/commission-list.tsx').then(({ CommissionList }) => CommissionList),
);
const CommissionPage = lazy(() =>
  import('../pages/commissions/commission-page.tsx').then(({ CommissionPage }) => CommissionPage),
);
const Enquiry = lazy(() => import('../pages/commissions/enquiry.tsx').then(({ Enquiry }) => Enquiry));
const SolderDrawer = lazy(() => import('../pages/drawer/solder-drawer.tsx').then(({ SolderDrawer }) => SolderDrawer));
const LotPage = lazy(() => import('../pages/drawer/lot-page.tsx').then(({ LotPage }) => LotPage));
const StocktakeList = lazy(() => import('../pages/drawer/stocktake-list.tsx').then(({ StocktakeList }) => StocktakeList));
const StocktakePage = lazy(() => import('../pages/drawer/stocktake-page.tsx').then(({ StocktakePage }) => StocktakePage));
const BathsPage = lazy(() => import('../pages/drawer/baths-page.tsx').then(({ BathsPage }) => BathsPage));
const BathPage = lazy(() => import('../pages/drawer/bath-page.tsx').then(({ BathPage }) => BathPage));
const MetalPage = lazy(() => import('../pages/drawer/metal-page.tsx').then(({ MetalPage }) => MetalPage));
const SuppliesPage = lazy(() => import('../pages/drawer/supplies-page.tsx').then(({ SuppliesPage }) => SuppliesPage));
const SupplyPage = lazy(() => import('../pages/drawer/supply-page.tsx').then(({ SupplyPage }) => SupplyPage));
const MetalLotPage = lazy(() => import('../pages/drawer/metal-lot-page.tsx').then(({ MetalLotPage }) => MetalLotPage));
const OrdersPage = lazy(() => import('../pages/drawer/orders-page.tsx').then(({ OrdersPage }) => OrdersPage));
const OrderPage = lazy(() => import('../pages/drawer/order-page.tsx').then(({ OrderPage }) => OrderPage));
const PieceList = lazy(() => import('../pages/pieces/piece-list.tsx').then(({ PieceList }) => PieceList));
const DesignPage = lazy(() => import('../pages/design/design-page.tsx').then(({ DesignPage }) => DesignPage));
const PiecePage = lazy(() => import('../pages/pieces/piece-page.tsx').then(({ PiecePage }) => PiecePage));
const PlanPage = lazy(() => import('../pages/plan/plan-page.tsx').then(({ PlanPage }) => PlanPage));
const PricePage = lazy(() => import('../pages/price/price-page.tsx').then(({ PricePage }) => PricePage));
const ReportList = lazy(() => import('../pages/reports/report-list.tsx').then(({ ReportList }) => ReportList));
const ReportPage = lazy(() => import('../pages/reports/report-page.tsx').then(({ ReportPage }) => ReportPage));
const DatesPage = lazy(() => import('../pages/dates/dates-page.tsx').then(({ DatesPage }) => DatesPage));
const SearchPage = lazy(() => import('../pages/search/search-page.tsx').then(({ SearchPage }) => SearchPage));
const StudioPage = lazy(() => import('../pages/studio/studio-page.tsx').then(({ StudioPage }) => StudioPage));
const Today = lazy(() => import('../pages/today/today.tsx').then(({ Today }) => Today));

/** A page begins anew at each of its addresses: nothing of one piece is shown under another's. */
function Route<Props>(props: RouteProps<Props> & Partial<Props>) {
  return <AnyRoute<Props> key={props.path} {...props} />;
}

/** What stands around every page: the way about, who is signed in, and the page itself. */
export function Frame() {
  const { say } = useWords();
  useAutoLock(useSession());
  const page = useRef<HTMLElement>(null);
  const arrive = useArrival(page);
  return (
    <>
      <a class="skip" href="#page">
        {say('shell.skip')}
      </a>
      <RoomsBar />
      <main id="page" ref={page} tabIndex={-1}>
        <ErrorBoundary>
          <Router onRouteChange={arrive}>
            <Route path="/" component={Today} />
            <Route path="/bench" component={BenchPage} />
            <Route path="/commissions" component={CommissionList} />
            <Route path="/commissions/new" component={Enquiry} />
            <Route path="/commissions/:id" component={CommissionPage} />
            <Route path="/commissions/:id/price" component={PricePage} />
            <Route path="/pieces" component={PieceList} />
            <Route path="/pieces/:id" component={PiecePage} />
            <Route path="/pieces/:id/plan" component={PlanPage} />
            <Route path="/pieces/:id/design" component={DesignPage} />
            <Route path="/drawer" component={SolderDrawer} />
            <Route path="/drawer/orders" component={OrdersPage} />
            <Route path="/drawer/orders/:id" component={OrderPage} />
            <Route path="/drawer/stocktake" component={StocktakeList} />
            <Route path="/drawer/stocktake/:id" component={StocktakePage} />
            <Route path="/drawer/baths" component={BathsPage} />
            <Route path="/baths/:id" component={BathPage} />
            <Route path="/drawer/metal" component={MetalPage} />
            <Route path="/drawer/supplies" component={SuppliesPage} />
            <Route path="/drawer/supplies/:id" component={SupplyPage} />
            <Route path="/drawer/metal/:id" component={MetalLotPage} />
            <Route path="/lots/:id" component={LotPage} />
            <Route path="/reports" component={ReportList} />
            <Route path="/reports/:name" component={ReportPage} />
            <Route path="/dates" component={DatesPage} />
            <Route path="/search" component={SearchPage} />
            <Route path="/studio/:part?" component={StudioPage} />
            <Route default component={NoSuchPage} />
          </Router>
        </ErrorBoundary>
      </main>
    </>
  );
}

function NoSuchPage() {
  const { say } = useWords();
  return (
    <section class="card">
      <h1>{say('shell.noSuchPage')}</h1>
      <a href="/">{say('shell.toStart')}</a>
    </section>
  );
}
