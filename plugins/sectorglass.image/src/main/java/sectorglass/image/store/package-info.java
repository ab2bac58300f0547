/**
 * The files under an image: opened read only, read at 64-bit positions, never memory-mapped, never failing upwards. What a file
 * could not deliver is told to a {@link sectorglass.image.store.Faults} and comes back as zero bytes that mean nothing.
 */
package sectorglass.image.store;
