// `--store FILE`, which every command takes that may look into the store.

import { Option } from "commander";
import { words } from "../report/index.ts";
import { defaultStoreFile } from "../store/index.ts";

const { cli } = words("en");

/** The option; its help names the file that is used without it. */
export const storeOption = () => new Option("--store <file>", cli.store(defaultStoreFile()));

/** The store's file: as stated, else the usual one. */
export const storeFileOf = (stated: string | undefined): string => stated ?? defaultStoreFile();
