package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.jar.JarEntry;
import java.util.jar.JarFile;
import java.util.stream.Stream;

import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;

import sectorglass.testkit.Tool;

/** Boots the OSGi framework with the assembled product and holds its providers equal to those on the plain class path. */
class WiringTest {
    private static final Path INSTALLATION = Path.of(System.getProperty("house"), "features/product/target/sectorglass");
    private static final String SERVICES = "META-INF/services/";

    @TempDir
    static Path folder;

    @BeforeAll
    static void theProductWasAssembled() {
        assertTrue(Files.isDirectory(INSTALLATION.resolve("plugins")), "no installation in " + INSTALLATION);
    }

    /** What the jars of the installation declare: type to provider classes. */
    private static Map<String, TreeSet<String>> declared() throws IOException {
        Map<String, TreeSet<String>> all = new TreeMap<>();
        for (Path jar : jars("sectorglass.")) {
            try (JarFile file = new JarFile(jar.toFile())) {
                for (JarEntry entry : file.stream().filter(e -> e.getName().startsWith(SERVICES + "sectorglass.")).toList()) {
                    try (InputStream in = file.getInputStream(entry)) {
                        new String(in.readAllBytes(), StandardCharsets.UTF_8).lines().map(l -> l.replaceAll("#.*", "").strip())
                                .filter(l -> !l.isEmpty()).forEach(l -> all.computeIfAbsent(entry.getName().substring(SERVICES.length()),
                                        t -> new TreeSet<>()).add(l));
                    }
                }
            }
        }
        return all;
    }

    private static List<Path> jars(String start) throws IOException {
        try (Stream<Path> all = Files.list(INSTALLATION.resolve("plugins"))) {
            return all.filter(p -> p.getFileName().toString().startsWith(start) && p.toString().endsWith(".jar")).sorted().toList();
        }
    }

    private static JsonNode inFramework(List<String> types) throws IOException {
        List<String> command = new ArrayList<>(List.of(Path.of(System.getProperty("java.home"), "bin", "java").toString(), "-jar",
                jars("org.eclipse.equinox.launcher_").get(0).toString(), "-nosplash", "-application", "sectorglass.cli.command", "-data", "@none",
                "-configuration", folder.resolve("configuration").toString(), "providers", "--json"));
        Files.createDirectories(folder.resolve("configuration"));
        String ini = Files.readString(INSTALLATION.resolve("configuration/config.ini"));
        Files.writeString(folder.resolve("configuration/config.ini"), ini + "\nosgi.framework=file:" + jars("org.eclipse.osgi_").get(0) + "\n");
        command.addAll(types);
        Tool.Result result = Tool.run(Map.of("DISPLAY", ""), null, 60, command.toArray(String[]::new));
        assertEquals(0, result.status(), result.out());
        assertFalse(result.out().contains("cannot be used"), result.out());
        return new ObjectMapper().readTree(result.out().substring(result.out().indexOf('{')));
    }

    @Test
    void everyBundleResolvesAndEveryProviderIsAServiceAsOnTheClassPath() throws IOException {
        Map<String, TreeSet<String>> declared = declared();
        assertTrue(declared.size() >= 5, declared.toString());
        JsonNode services = inFramework(List.copyOf(declared.keySet()));
        Map<String, TreeSet<String>> found = new TreeMap<>();
        services.fields().forEachRemaining(type -> {
            TreeSet<String> names = new TreeSet<>();
            type.getValue().forEach(name -> names.add(name.asText()));
            found.put(type.getKey(), names);
        });
        assertEquals(declared, found);

        Tool.Result plain = Tool.run(Map.of(), null, 60, Stream.concat(Stream.of(INSTALLATION.resolve("sectorglass").toString(), "providers", "--json"),
                declared.keySet().stream()).toArray(String[]::new));
        Map<String, TreeSet<String>> onClassPath = new TreeMap<>();
        new ObjectMapper().readTree(plain.ok()).fields().forEachRemaining(type -> {
            TreeSet<String> names = new TreeSet<>();
            type.getValue().forEach(name -> names.add(name.asText()));
            onClassPath.put(type.getKey(), names);
        });
        assertEquals(declared, onClassPath);
    }

    @Test
    void theLauncherRunsCommandsAndGivesTheirStatus() {
        String launcher = INSTALLATION.resolve("sectorglass").toString();
        assertTrue(Tool.run(launcher, "--help").ok().contains("verify"));
        assertEquals(2, Tool.run(launcher, "nonsense").status());
        assertEquals(3, Tool.run(launcher, "layout", folder.resolve("missing").toString()).status());
    }
}
