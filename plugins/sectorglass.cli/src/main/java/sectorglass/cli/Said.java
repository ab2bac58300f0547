package sectorglass.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;

import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;

/**
 * One option, declared by code. The options that all commands share, and those of the shortest command, are declared so and not by annotations:
 * reading annotations costs a starting process a tenth of a second.
 */
final class Said {
    private final OptionSpec.Builder builder;
    private OptionSpec spec;

    private Said(String name, Class<?> type, Class<?>... parts) {
        builder = OptionSpec.builder(name).type(type);
        if (parts.length > 0) {
            builder.auxiliaryTypes(parts);
        }
    }

    /** An option that is given or not. */
    static Said flag(String name, String... description) {
        return new Said(name, boolean.class).described(description);
    }

    /** An option with one value of this type. */
    static Said value(String name, Class<?> type, String label, String... description) {
        return new Said(name, type).described(description).labelled(label);
    }

    /** A path that may be given several times. */
    static Said paths(String name, String label, String... description) {
        return new Said(name, List.class, Path.class).described(description).labelled(label);
    }

    /** Keys and values, several at once with commas between. */
    static Said keys(String name, String... description) {
        Said made = new Said(name, Map.class, String.class, String.class).described(description).labelled("KEY=VALUE");
        made.builder.splitRegex(",");
        return made;
    }

    private Said described(String... description) {
        builder.description(description);
        return this;
    }

    private Said labelled(String label) {
        builder.paramLabel(label);
        return this;
    }

    /** The option, for a group that is declared by code as well. */
    OptionSpec required() {
        spec = builder.required(true).build();
        return spec;
    }

    /** Makes it an option of this command. */
    void addTo(CommandSpec command) {
        spec = builder.build();
        command.addOption(spec);
    }

    /** Whether the flag was given. */
    boolean given() {
        return Boolean.TRUE.equals(spec.getValue());
    }

    /** The path, or null. */
    Path path() {
        return spec.getValue();
    }

    /** The text, or null. */
    String text() {
        return spec.getValue();
    }

    /** The whole number, or null. */
    Long number() {
        return spec.getValue();
    }

    /** The paths, in the order in which they were given. */
    List<Path> paths() {
        List<Path> given = spec.getValue();
        return given == null ? List.of() : given;
    }

    /** The keys with their values. */
    Map<String, String> keys() {
        Map<String, String> given = spec.getValue();
        return given == null ? Map.of() : given;
    }
}
