/**
 * The bytes of an image with the gloss: under each row a bracket for every field, and at its foot the field's name and value. Rows that no
 * field explains stay silent and low. The position is a long; the scroll bar is only a mapped view of it.
 */
package sectorglass.workbench.sectors;
