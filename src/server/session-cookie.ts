// The cookie of a session. Over TLS its name binds it to this very host (RFC 6265bis, "__Host-" prefix).

/** The cookie's name; browsers take one that begins with __Host- over TLS alone, and from this very host. */
export const cookieName = (isTls: boolean) => (isTls ? "__Host-coldfall" : "coldfall");

/** @param isGuarded false only in a test: no script may read the cookie, no foreign page send it, no plain line carry it */
export const sessionCookie = (token: string, isTls: boolean, isGuarded: boolean): string =>
  [
    `${isGuarded ? cookieName(isTls) : "coldfall"}=${token}`,
    "Path=/",
    ...(isGuarded ? ["HttpOnly", "SameSite=Strict"] : []),
    ...(isGuarded && isTls ? ["Secure"] : []),
  ].join("; ");
