package sectorglass.image;

import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;

/** Writes part lists: CSV, described in docs/files.md. */
public final class PartList {

    private PartList() {
    }

    /** The parts laid one after the other in another order; their sizes stay. */
    public static List<ImagePart> inOrder(List<ImagePart> parts, List<Integer> order) {
        List<ImagePart> laid = new ArrayList<>();
        long at = 0;
        for (int index : order) {
            ImagePart part = parts.get(index);
            laid.add(new ImagePart(part.file(), part.number(), at, part.bytes()));
            at += part.bytes();
        }
        return List.copyOf(laid);
    }

    /**
     * Writes a list. Files in its folder are named without it. Missing parts are left out: what no line names is unread. Where some part begins or ends within
     * a sector, first byte and number of bytes stand behind the file.
     *
     * @throws IOException if it exists already or cannot be written
     */
    public static void write(Path list, List<ImagePart> parts, int sectorSize) throws IOException {
        boolean cut = parts.stream().anyMatch(part -> part.start() % sectorSize != 0 || part.bytes() % sectorSize != 0);
        Path folder = list.toAbsolutePath().normalize().getParent();
        try (BufferedWriter out = Files.newBufferedWriter(list, StandardCharsets.UTF_8, StandardOpenOption.CREATE_NEW)) {
            out.write("first_lba,sectors,file" + (cut ? ",first_byte,bytes" : "") + "\n");
            for (ImagePart part : parts) {
                if (!part.missing() && part.bytes() > 0) {
                    SectorRange sectors = new ByteRange(part.start(), part.bytes()).sectors(sectorSize);
                    Path file = part.file().toAbsolutePath().normalize();
                    String name = folder.equals(file.getParent()) ? file.getFileName().toString() : file.toString();
                    out.write(sectors.first() + "," + sectors.count() + ",\"" + name.replace("\"", "\"\"") + "\""
                            + (cut ? "," + part.start() + "," + part.bytes() : "") + "\n");
                }
            }
        }
    }
}
