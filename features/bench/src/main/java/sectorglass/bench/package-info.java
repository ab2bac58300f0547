/** JMH benchmarks; docs/benchmarks.md holds commands and figures. */
package sectorglass.bench;
