package sectorglass.cli;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.PrintStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Properties;

/** The overview that help prints. */
final class Overview {

    private Overview() {
    }

    static void print(PrintStream out) {
        Properties texts = texts();
        out.println("Sectorglass " + version());
        out.println(texts.getProperty("overview"));
        out.println();
        out.println(texts.getProperty("workbench"));
        out.println();
        for (String name : CommandTable.names()) {
            out.printf("  %-10s %s%n", name, texts.getProperty("command." + name, ""));
        }
        out.println();
        out.println(texts.getProperty("more"));
        out.println();
        out.println(texts.getProperty("cautions"));
    }

    static String version() {
        String version = Overview.class.getPackage().getImplementationVersion();
        return version == null ? "0.1.0" : version;
    }

    private static Properties texts() {
        Properties texts = new Properties();
        try (InputStream in = Overview.class.getResourceAsStream("overview.properties")) {
            texts.load(new InputStreamReader(in, StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return texts;
    }
}
