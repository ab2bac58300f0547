/**
 * The expression language of Kaitai Struct: text to syntax trees with columns. Source: Kaitai Struct User Guide, section 6 "Expression
 * language". Knows no types and no specs; nesting is limited, so that hostile text cannot exhaust the stack.
 */
package sectorglass.decode.internal.expr;
