package sectorglass.ksycheck;

/** Names in generated code. */
final class Names {

    private Names() {
    }

    /** An id in camel case, small first letter: {@code first_lba} to {@code firstLba}. */
    static String camel(String id) {
        StringBuilder camel = new StringBuilder();
        boolean upper = false;
        for (char c : id.toCharArray()) {
            if (c == '_') {
                upper = camel.length() > 0;
            } else {
                camel.append(upper ? Character.toUpperCase(c) : c);
                upper = false;
            }
        }
        return id.startsWith("unnamed") ? "_" + camel : camel.toString();
    }
}
