/**
 * Specs as they run: the model of types and fields, the steps that read them, the expressions as closures, and the tree of nodes they
 * build. Nothing here throws because of bytes: what cannot be decided is carried by {@link
 * sectorglass.decode.internal.run.Undecided} to the field that needed it and becomes a {@link
 * sectorglass.decode.internal.run.Trouble} there.
 */
package sectorglass.decode.internal.run;
