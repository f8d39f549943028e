import { expose } from "comlink";
import { herdAnswers } from "./herd-answers.ts";

/* The thread on which herds are worked out; the page's own thread only shows. */
expose(herdAnswers());
