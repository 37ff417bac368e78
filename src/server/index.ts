// What other floors may import from the server: making one, and what it needs to be reached by others.
export { createServer, type Service } from "./create-server.ts";
export { inAddress, keptCertificate, loopbackHosts, reachableHosts } from "./reach.ts";
export { hashPassword, type PasswordHashes, shortestPassword } from "./sign-in.ts";
