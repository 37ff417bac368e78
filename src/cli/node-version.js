// Ends the program with one plain sentence where Node is too old for it. JavaScript, and of the plainest: an older
// Node cannot read TypeScript, and this is what every entry point loads first (package.json's scripts by --import).

const oldestMajor = 24;

/**
 * What to say on this Node; null when it serves.
 *
 * @param {string} version as in process.versions.node, "24.21.0"
 */
export function nodeTooOld(version) {
  if (Number(version.split(".")[0]) >= oldestMajor) return null;
  return (
    `coldfall needs Node ${oldestMajor} or newer, and this is Node ${version}. In a checkout run "npm ci" and start it ` +
    `through npm ("npm start", "npm test", "npm run coldfall"), which then uses the Node that "npm ci" brought along. ` +
    `Where it brings none (some Macs, Windows on ARM), or for an installed package, install Node ${oldestMajor} from https://nodejs.org`
  );
}

const complaint = nodeTooOld(process.versions.node);
if (complaint !== null) {
  console.error(complaint);
  process.exit(1);
}
