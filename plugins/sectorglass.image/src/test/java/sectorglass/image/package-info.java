/** Tests of the image bundle: expected values are computed in the tests or come from reference utilities. */
package sectorglass.image;
