import { X509Certificate } from "node:crypto";
import { readFile } from "node:fs/promises";
import { isIP } from "node:net";
import { createSecureContext, rootCertificates } from "node:tls";

/** Where the hub's own certificate and its key lie. */
export interface CertificateFiles {
  readonly cert: string;
  readonly key: string;
}

/** A certificate with its key, PEM, as a server of Node's takes them; the older versions of TLS are not spoken. */
export interface Certificate {
  readonly cert: string;
  readonly key: string;
  readonly minVersion: "TLSv1.2";
}

/** The certificate that lies in two files. Throws where one cannot be read, or the key is not the certificate's. */
export async function certificateIn(files: CertificateFiles): Promise<Certificate> {
  const [cert, key] = await Promise.all([readFile(files.cert, "utf8"), readFile(files.key, "utf8")]);
  const certificate = { cert, key, minVersion: "TLSv1.2" } as const;
  createSecureContext(certificate);
  return certificate;
}

/** The certificates of a PEM text, the hub's own first. */
const chainOf = (pem: string): readonly X509Certificate[] =>
  (pem.match(/-----BEGIN CERTIFICATE-----[^-]+-----END CERTIFICATE-----/g) ?? []).map(
    (text) => new X509Certificate(text),
  );

/** When a certificate is over. */
export const endOf = (pem: string): Date => new Date(new X509Certificate(pem).validTo);

const DAY_MS = 86_400_000;
/** How long before its end a certificate is spoken of. Source: judgement; those that renew by themselves do so earlier. */
const SOON_DAYS = 14;

/** Why phones will refuse a certificate that is shown under a name, now or soon: a sentence each. */
export function concernsAbout(pem: string, reach: string, now: Date): readonly string[] {
  const own = new X509Certificate(pem);
  const { hostname } = new URL(reach);
  const name = hostname.replace(/^\[|\]$/g, "");
  const isForName = isIP(name) === 0 ? own.checkHost(name) : own.checkIP(name);
  const [from, to] = [new Date(own.validFrom), new Date(own.validTo)];
  const days = Math.floor((to.getTime() - now.getTime()) / DAY_MS);
  return [
    ...(isForName === undefined ? ["The certificate is not for the name that phones use; they will refuse it."] : []),
    ...(now < from ? [`The certificate is good from ${dayOf(from)} only; until then phones refuse it.`] : []),
    ...(now > to
      ? [`The certificate ended on ${dayOf(to)}; phones refuse it.`]
      : days < SOON_DAYS
        ? [`The certificate ends on ${dayOf(to)}; put a new one into its files before.`]
        : []),
  ];
}

const dayOf = (at: Date): string => at.toISOString().slice(0, 10);

/**
 * Whether an authority that everybody knows vouches for a certificate: each of its chain was signed by the next and the last by
 * one of `authorities`, usually those of Mozilla's list, which Node has.
 */
export function isVouchedFor(pem: string, authorities: readonly string[] = rootCertificates): boolean {
  const roots = authorities.map((authority) => new X509Certificate(authority));
  const chain = chainOf(pem);
  const signed = (one: X509Certificate, by: X509Certificate): boolean =>
    one.checkIssued(by) && one.verify(by.publicKey);
  for (const [at, each] of chain.entries()) {
    if (roots.some((root) => root.fingerprint256 === each.fingerprint256 || signed(each, root))) return true;
    const next = chain[at + 1];
    if (next === undefined || !signed(each, next)) return false;
  }
  return false;
}
