package sectorglass.workbench.model;

/**
 * A place that was gone to.
 *
 * @param address image byte
 * @param by how one came here: the field that pointed, a search, an address that was typed; words
 */
public record Step(long address, String by) { }
