/** `npm start`: installs what is missing, builds when a source is newer than the bundle, serves it. */
import { DIST, ensureBuild } from './lib/build.mjs';
import { ensurePackages } from './lib/packages.mjs';
import { fail } from './lib/run.mjs';
import { createStaticServer, listen, localAddresses } from './lib/server.mjs';
import { readStartOptions, START_USAGE } from './lib/startOptions.mjs';

const FIRST_PORT = 4173;

async function printNetworkAddresses(port) {
  const addresses = localAddresses().map((address) => `http://${address}:${port}/`);
  if (addresses.length === 0) {
    console.log('\nThis machine has no address in a local network: only the address above works.');
    return;
  }
  // loaded here: on a fresh machine the package is not there before ensurePackages
  const { default: encodeQR } = await import('qr');
  console.log(`\nIn the local network:\n${addresses.map((address) => `  ${address}`).join('\n')}\n`);
  console.log(encodeQR(addresses[0], 'term'));
  console.log(
    'Browsers allow the camera, the home-screen app and offline use only over HTTPS or on this machine itself;\n' +
      'everything else works over this address.',
  );
}

async function main() {
  const options = readStartOptions(process.argv.slice(2));
  if (options.help) {
    console.log(`${START_USAGE}\n  --host   also serve the local network and print its address and QR code`);
    return;
  }
  await ensurePackages();
  await ensureBuild();

  const server = createStaticServer(DIST);
  const port = await listen(server, {
    port: options.port ?? FIRST_PORT,
    host: options.host ? '0.0.0.0' : '127.0.0.1',
    tries: options.port === undefined ? 20 : 1,
  });
  console.log(`\nMeshwitness is at  http://localhost:${port}/`);
  if (options.host) await printNetworkAddresses(port);
  console.log('\nCtrl-C ends it.');

  const end = () => {
    server.close(() => process.exit(0));
    server.closeAllConnections();
  };
  process.once('SIGINT', end);
  process.once('SIGTERM', end);
}

main().catch(fail);
