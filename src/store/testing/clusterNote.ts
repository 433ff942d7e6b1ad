/** In the folder of a run: where its database server is, so that whoever comes later finds it and the run can stop it. */
export const clusterNote = "postgres.json";
