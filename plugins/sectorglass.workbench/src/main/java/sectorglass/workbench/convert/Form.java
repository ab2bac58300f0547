package sectorglass.workbench.convert;

/**
 * A value in one of its forms.
 *
 * @param label what form it is, in the language of the window
 * @param text the value
 */
public record Form(String label, String text) { }
