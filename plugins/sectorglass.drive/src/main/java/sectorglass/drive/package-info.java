/** What a drive says of itself: identity and health sectors, nominal capacity. */
package sectorglass.drive;
