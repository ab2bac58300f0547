package sectorglass.decode;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentHashMap;

import sectorglass.decode.internal.load.OutlineReader;
import sectorglass.decode.internal.load.SpecLoader;
import sectorglass.image.Providers;

/** The formats of all bundles, known by their index, loaded one by one when needed. Safe for several threads. */
public final class FormatCatalogue {
    private final Map<String, Entry> entries = new TreeMap<>();
    private final Map<String, Format> loaded = new ConcurrentHashMap<>();

    private record Entry(FormatInfo info, FormatFolder folder) { }

    /**
     * A catalogue of these folders. Where two have a format of one id, the first one counts.
     *
     * @throws UncheckedIOException if an index cannot be read
     */
    public FormatCatalogue(List<FormatFolder> folders) {
        for (FormatFolder folder : folders) {
            try (InputStream index = folder.open("index")) {
                if (index != null) {
                    read(index, folder);
                }
            } catch (IOException e) {
                throw new UncheckedIOException("the index of formats of " + folder.bundle() + " cannot be read", e);
            }
        }
    }

    private void read(InputStream index, FormatFolder folder) throws IOException {
        BufferedReader lines = new BufferedReader(new InputStreamReader(index, StandardCharsets.UTF_8));
        for (String line = lines.readLine(); line != null; line = lines.readLine()) {
            String[] parts = line.split("\t", -1);
            if (parts.length >= 4) {
                List<String> kinds = parts[3].isEmpty() ? List.of() : List.of(parts[3].split(","));
                FormatInfo info = new FormatInfo(parts[0], parts[1], folder.bundle(), parts[2], kinds);
                entries.putIfAbsent(info.id(), new Entry(info, folder));
            }
        }
    }

    /** The catalogue of all provided folders; reads their indexes only. */
    public static FormatCatalogue ofProviders() {
        return new FormatCatalogue(Providers.all(FormatFolder.class));
    }

    /** All formats in order of their ids. */
    public List<FormatInfo> formats() {
        Collection<Entry> all = entries.values();
        return all.stream().map(Entry::info).toList();
    }

    /** The index line of a format. */
    public Optional<FormatInfo> find(String id) {
        return Optional.ofNullable(entries.get(id)).map(Entry::info);
    }

    /**
     * Loads a format and what it imports; kept for the next time.
     *
     * @throws SpecException if the spec is wrong
     * @throws IllegalArgumentException if there is no such format
     */
    public Format load(String id) throws SpecException {
        Format known = loaded.get(id);
        if (known != null) {
            return known;
        }
        Entry entry = entries.get(id);
        if (entry == null) {
            throw new IllegalArgumentException("there is no format '" + id + "'");
        }
        Format made = SpecLoader.load(path -> text(entry.folder, path), entry.info.file());
        Format other = loaded.putIfAbsent(id, made);
        return other == null ? made : other;
    }

    /**
     * What the spec of a format says of its structure, made from the spec itself.
     *
     * @throws SpecException if the spec is wrong
     * @throws IllegalArgumentException if there is no such format
     */
    public FormatOutline outline(String id) throws SpecException {
        load(id);
        Entry entry = entries.get(id);
        try {
            return OutlineReader.read(entry.info.file(), text(entry.folder, entry.info.file()), this::imported);
        } catch (IOException e) {
            throw new UncheckedIOException(entry.info.file(), e);
        }
    }

    /** Text of a spec by the id of its format, or null. */
    private String imported(String id) {
        Entry entry = entries.get(id);
        try {
            return entry == null ? null : text(entry.folder, entry.info.file());
        } catch (IOException e) {
            throw new UncheckedIOException(entry.info.file(), e);
        }
    }

    private static String text(FormatFolder folder, String path) throws IOException {
        try (InputStream in = folder.open(path)) {
            return in == null ? null : new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }
}
