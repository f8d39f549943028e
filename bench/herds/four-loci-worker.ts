import { timeFourLoci } from "./four-loci.ts";

/* The worker's whole program. */
postMessage(timeFourLoci());
