package sectorglass.ksycheck;

import java.io.File;
import java.io.IOException;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

import javax.tools.JavaCompiler;
import javax.tools.StandardJavaFileManager;
import javax.tools.ToolProvider;

import org.yaml.snakeyaml.LoaderOptions;
import org.yaml.snakeyaml.Yaml;
import org.yaml.snakeyaml.constructor.SafeConstructor;

/** Compiles specs with the official compiler, in a process of its own, and the Java it writes. */
final class GeneratedCode {
    private final ClassLoader classes;

    private GeneratedCode(ClassLoader classes) {
        this.classes = classes;
    }

    /** What the official compiler says to some specs, and the code it made. */
    record Outcome(GeneratedCode code, String complaints) { }

    /** What the official compiler says to each spec of a folder: by id, null where it accepts the spec. */
    static Map<String, String> judge(Path folder, List<Path> specs, Path work) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>(List.of(Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1", "-cp", Files.readString(Path.of(System.getProperty("ksc.path"))).strip(),
                "io.kaitai.struct.JavaMain", "-t", "java", "--ksc-json-output", "--outdir", work.toString(), "--import-path",
                folder.toString()));
        specs.forEach(spec -> command.add(spec.toString()));
        Path log = Files.createDirectories(work).resolve("ksc.json");
        Process process = new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.DISCARD).redirectOutput(log.toFile()).start();
        if (!process.waitFor(120, TimeUnit.SECONDS)) {
            process.destroyForcibly();
            throw new IllegalStateException("the compiler did not end within 120 s");
        }
        Map<?, ?> all = new Yaml(new SafeConstructor(new LoaderOptions())).load(Files.readString(log));
        Map<String, String> verdicts = new TreeMap<>();
        all.forEach((file, verdict) -> {
            Object errors = ((Map<?, ?>) verdict).get("errors");
            verdicts.put(Path.of((String) file).getFileName().toString().replace(".ksy", ""), errors == null ? null : errors.toString());
        });
        return verdicts;
    }

    /** Compiles the specs of some folders into a work folder. */
    static Outcome compile(List<Path> specs, Path work) throws IOException, InterruptedException {
        Path sources = Files.createDirectories(work.resolve("java"));
        String path = Files.readString(Path.of(System.getProperty("ksc.path"))).strip();
        List<String> command = new ArrayList<>(List.of(Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1", "-cp", path, "io.kaitai.struct.JavaMain", "-t", "java", "--java-package", "ksy", "--read-pos",
                "--no-auto-read", "--outdir", sources.toString()));
        specs.stream().map(Path::getParent).distinct().forEach(folder -> {
            command.add("--import-path");
            command.add(folder.toString());
        });
        specs.forEach(spec -> command.add(spec.toString()));
        Path log = work.resolve("ksc.log");
        Process process = new ProcessBuilder(command).redirectErrorStream(true).redirectOutput(log.toFile()).start();
        if (!process.waitFor(120, TimeUnit.SECONDS)) {
            process.destroyForcibly();
            throw new IllegalStateException("the compiler did not end within 120 s");
        }
        String complaints = Files.readString(log);
        return new Outcome(new GeneratedCode(javac(sources, work.resolve("classes"))), process.exitValue() == 0 ? "" : complaints);
    }

    private static ClassLoader javac(Path sources, Path classes) throws IOException {
        Files.createDirectories(classes);
        List<File> files;
        try (Stream<Path> all = Files.walk(sources)) {
            files = all.filter(p -> p.toString().endsWith(".java")).map(Path::toFile).toList();
        }
        JavaCompiler compiler = ToolProvider.getSystemJavaCompiler();
        java.io.StringWriter messages = new java.io.StringWriter();
        try (StandardJavaFileManager manager = compiler.getStandardFileManager(null, null, null)) {
            List<String> options = List.of("-d", classes.toString(), "-nowarn", "-proc:none", "-cp", System.getProperty("java.class.path"));
            boolean done = compiler.getTask(messages, manager, null, options, null, manager.getJavaFileObjectsFromFiles(files)).call();
            if (!done) {
                throw new AssertionError("the generated Java does not compile; see \"So that the official compiler agrees\" in "
                        + "docs/adding-a-format.md\n" + messages);
            }
        }
        return new URLClassLoader(new URL[] {classes.toUri().toURL()}, GeneratedCode.class.getClassLoader());
    }

    /** The class of a spec. */
    Class<?> type(String id) throws ClassNotFoundException {
        String camel = Names.camel(id);
        return classes.loadClass("ksy." + Character.toUpperCase(camel.charAt(0)) + camel.substring(1));
    }
}
