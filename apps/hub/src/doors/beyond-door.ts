import { once } from "node:events";
import { createServer } from "node:https";
import { Server as TlsServer } from "node:tls";
import { createAdaptorServer } from "@hono/node-server";
import {
  type Certificate,
  type CertificateFiles,
  certificateIn,
  concernsAbout,
  endOf,
  isVouchedFor,
} from "./certificate.ts";
import type { Clock, Journal } from "../observation/journal.ts";
import { plainError } from "../observation/plain-error.ts";
import { PATIENCE } from "./patience.ts";
import type { Beyond } from "../start-wish.ts";

/** What answers at a door. */
export type AnswersRequests = Parameters<typeof createAdaptorServer>[0]["fetch"];

/** The door for devices beyond this computer, open. */
export interface BeyondDoor {
  /** When the certificate that is shown is over; nothing where a proxy has one. */
  readonly certificateEnds: () => Date | undefined;
  /** Shows what lies in the certificate's files now, if that is another and good; else goes on with the one before. */
  readonly lookAgain: () => Promise<void>;
  readonly close: () => void;
}

/** How often the certificate's files are looked at, ms. Those that renew by themselves do so weeks before the end. */
const LOOK_MS = 60 * 60_000;
/** How often one that phones refuse, or will soon, is spoken of, ms. */
const DAY_MS = 86_400_000;

/**
 * Opens the door for devices beyond this computer: with the hub's own certificate, or for a proxy that has one.
 *
 * A certificate of a public authority lasts some weeks and is renewed by a program of its own, which puts the new one into the
 * same files. They are looked at every hour, so that nobody has to start the hub again for it.
 *
 * Errors: throws where the port cannot be had, or the certificate is none.
 */
export async function openBeyond(
  { reach, host, port, certificate: files }: Beyond,
  fetch: AnswersRequests,
  { journal, clock }: { readonly journal: Journal; readonly clock: Clock },
): Promise<BeyondDoor> {
  const options = { fetch, overrideGlobalObjects: false, serverOptions: PATIENCE };
  let shown = files && (await certificateIn(files));
  const server =
    shown === undefined
      ? createAdaptorServer(options)
      : createAdaptorServer({ ...options, createServer, serverOptions: { ...PATIENCE, ...shown } });
  server.listen(port, host);
  await once(server, "listening");
  let worried = Number.NEGATIVE_INFINITY;
  const worry = ({ cert }: Certificate): void => {
    worried = clock().getTime();
    for (const sentence of concernsAbout(cert, reach, clock())) journal.problem(sentence);
  };
  if (shown) {
    worry(shown);
    if (!isVouchedFor(shown.cert))
      journal.said("No public authority vouches for the certificate: phones need yours installed (docs/running).");
  }

  async function lookInto(at: CertificateFiles): Promise<void> {
    const now = await certificateIn(at);
    if (now.cert === shown?.cert && now.key === shown.key) {
      if (clock().getTime() - worried >= DAY_MS) worry(now);
      return;
    }
    if (server instanceof TlsServer) server.setSecureContext(now);
    shown = now;
    journal.said(`A new certificate is shown to phones; it ends on ${endOf(now.cert).toISOString().slice(0, 10)}.`);
    worry(now);
  }
  const lookAgain = async (): Promise<void> => {
    // Both files cannot be written at one moment: what does not fit together yet is looked at the next time.
    if (files)
      await lookInto(files).catch((error: unknown) =>
        journal.problem(`The certificate's files cannot be used, and the one before goes on: ${plainError(error)}`),
      );
  };
  const looking = setInterval(() => void lookAgain(), LOOK_MS).unref();
  return {
    certificateEnds: () => shown && endOf(shown.cert),
    lookAgain,
    close: () => {
      clearInterval(looking);
      server.close();
      if ("closeAllConnections" in server) server.closeAllConnections();
    },
  };
}
