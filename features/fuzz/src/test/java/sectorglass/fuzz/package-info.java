/** Endless tests: bytes and specs that a fuzzer thinks of. */
package sectorglass.fuzz;
