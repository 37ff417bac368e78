// Where the store lies when nobody says: in the user's own data folder, as each system has it.

import { homedir } from "node:os";
import { join } from "node:path";

/**
 * The store's usual file. Linux and the like: XDG Base Directory Specification 0.8; the other two as their systems document it.
 *
 * @param environment the process's environment variables
 */
export function defaultStoreFile(
  environment: Readonly<Record<string, string | undefined>> = process.env,
  platform: NodeJS.Platform = process.platform,
): string {
  return join(dataFolder(environment, platform), "coldfall", "workshop.coldfall");
}

function dataFolder(environment: Readonly<Record<string, string | undefined>>, platform: NodeJS.Platform): string {
  const home = environment.HOME || environment.USERPROFILE || homedir();
  if (platform === "win32") return environment.LOCALAPPDATA || join(home, "AppData", "Local");
  if (platform === "darwin") return join(home, "Library", "Application Support");
  // The specification says that a relative path is to be ignored.
  const stated = environment.XDG_DATA_HOME;
  return stated?.startsWith("/") ? stated : join(home, ".local", "share");
}
