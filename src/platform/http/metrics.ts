import type { FastifyInstance } from 'fastify';
import { sql } from 'drizzle-orm';
import { Gauge, Histogram, Registry, collectDefaultMetrics, type OpenMetricsContentType } from 'prom-client';
import type { Db } from '../db/client.ts';

/** Seconds: a page's own file below the first, a plan that is searched above the last. */
const BUCKETS_S = [0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5, 10];

export const METRICS_TYPE = Registry.OPENMETRICS_CONTENT_TYPE;

/** A process has one memory and one event loop, however many apps are in it. */
const ofProcess = newRegistry();
collectDefaultMetrics({ register: ofProcess });

/**
 * Counts and times every request from here on by the route as it is registered, never by its address: ids and the secrets of private
 * links stay out.
 *
 * @returns reads what was measured, with what the process uses and how large the book is, as OpenMetrics text
 * @see OpenMetrics 1.0.0
 */
export function measure(http: FastifyInstance, db: Db): () => Promise<string> {
  const own = newRegistry();
  const took = new Histogram({
    name: 'http_request_duration_seconds',
    help: 'From the arrival of a request to the end of its reply',
    labelNames: ['method', 'route', 'status'],
    buckets: BUCKETS_S,
    registers: [own],
  });
  const size = new Gauge({
    name: 'book_size_bytes',
    help: 'The file of the book, without its log of writes',
    registers: [],
    collect() {
      const { bytes } = db.get<{ bytes: number }>(
        sql`SELECT page_count * page_size AS bytes FROM pragma_page_count(), pragma_page_size()`,
      );
      this.set(bytes);
    },
  });
  own.registerMetric(size);
  http.addHook('onResponse', async ({ method, routeOptions }, { statusCode, elapsedTime }) => {
    took.observe({ method, route: routeOptions.url ?? 'none', status: String(statusCode) }, elapsedTime / 1000);
  });
  // The types of merge know one of the two formats alone.
  return () => Registry.merge([ofProcess, own] as unknown as Registry[]).metrics();
}

function newRegistry(): Registry<OpenMetricsContentType> {
  const registry = new Registry<OpenMetricsContentType>();
  registry.setContentType(METRICS_TYPE);
  return registry;
}
