/**
 * The interpreter against the official compiler: every spec below {@code formats/} is compiled to Java, run over the same bytes, and
 * compared field by field, value and position. The generated code stops at the first violation; up to there both must agree.
 */
package sectorglass.ksycheck;
