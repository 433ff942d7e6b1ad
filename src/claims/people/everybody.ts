/** Under this all entries of people are filed, whoever they are of. */
export const everybody = "";
