package sectorglass.workbench;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** What the command line asks of the window. */
final class Arguments {

    private Arguments() {
    }

    /**
     * The images named; options of the platform and their values are left out.
     *
     * @param arguments as the platform hands them over; may be null
     */
    static List<Path> images(String[] arguments) {
        List<Path> images = new ArrayList<>();
        if (arguments == null) {
            return images;
        }
        for (int i = 0; i < arguments.length; i++) {
            if (arguments[i].startsWith("-")) {
                if (i + 1 < arguments.length && !arguments[i + 1].startsWith("-") && takesValue(arguments[i])) {
                    i++;
                }
            } else if (!arguments[i].isBlank()) {
                images.add(Path.of(arguments[i]));
            }
        }
        return images;
    }

    private static boolean takesValue(String option) {
        return switch (option) {
            case "-product", "-application", "-cssTheme", "-showlocation", "-name", "-perspective" -> true;
            default -> false;
        };
    }
}
