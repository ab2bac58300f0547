/**
 * Specs from YAML to the model that runs: reading with line and column of every node, imports, names and types, expressions, checks.
 * All mistakes are collected; a spec with one of them is not run. Source: Kaitai Struct User Guide and KSY reference (doc.kaitai.io).
 */
package sectorglass.decode.internal.load;
