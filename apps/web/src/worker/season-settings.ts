/** The setting that holds the vet's name. */
export const VET_NAME = "vet-name";
