import { parseArgs } from 'node:util';
import { PlainError } from './run.mjs';

export const START_USAGE = 'npm start [-- [--host] [--port=NUMBER]]';

/** @returns {{ host: boolean, port: number | undefined, help: boolean }} port is undefined when left to us */
export function readStartOptions(args) {
  let values;
  try {
    ({ values } = parseArgs({
      args,
      options: { host: { type: 'boolean' }, port: { type: 'string' }, help: { type: 'boolean', short: 'h' } },
    }));
  } catch (error) {
    throw new PlainError(`${error.message.split('. ')[0]}. Usage: ${START_USAGE}`);
  }
  const port = values.port === undefined ? undefined : Number(values.port);
  if (port !== undefined && !(Number.isInteger(port) && port >= 1 && port <= 65535)) {
    throw new PlainError(`--port=${values.port}: a whole number from 1 to 65535 is allowed.`);
  }
  return { host: values.host ?? false, port, help: values.help ?? false };
}
