/** The version of this tool, as package.json has it; a brief says by which it was made. */
export const toolVersion = '0.1.0';
