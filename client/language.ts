/** Our documents, as the editor calls their language. */
export const LANGUAGE = 'kitproof';
