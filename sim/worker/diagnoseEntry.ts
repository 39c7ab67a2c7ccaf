import * as Comlink from 'comlink';
import { DiagnoseCore } from './diagnoseCore.ts';

/** The diagnosing worker's side. */
const core = new DiagnoseCore();

const api = { match: core.match.bind(core), patterns: core.patterns.bind(core) };

export type DiagnoseWorkerApi = typeof api;

// The second argument matters where the worker scope is not the global one (vitest's node worker).
Comlink.expose(api, self as unknown as Comlink.Endpoint);
