package sectorglass.workbench.commands;

import java.util.Locale;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import sectorglass.disk.Disk.FoundMap;
import sectorglass.disk.Partition;
import sectorglass.disk.PartitionMap.Copy;
import sectorglass.disk.Volume;
import sectorglass.workbench.model.OpenDisk;

/**
 * Understands places as people name them: a number (LBA), {@code byte N}, {@code partition N}, {@code end of partition N},
 * {@code backup gpt}, {@code cluster N} and {@code record N} of the volume at the caret, {@code +N} and {@code -N} sectors from the
 * caret; German words too.
 */
public final class PlaceWords {
    private static final Pattern WITH_NUMBER = Pattern.compile(
            "(?:(?<words>[\\p{L} ]*?)\\s+)?(?<number>[+\\-\u2212]?\\s*(?:0x[0-9a-f]+|[0-9][0-9a-f]*h|[0-9][0-9\\s\u2009]*))");

    private final OpenDisk open;
    private final long caret;

    /** Places of a disk, as seen from an image byte. */
    public PlaceWords(OpenDisk open, long caret) {
        this.open = open;
        this.caret = caret;
    }

    /** The image byte meant; empty where the words are not understood or the place does not exist. */
    public OptionalLong address(String typed) {
        String text = typed.strip().toLowerCase(Locale.ROOT);
        if (text.matches("(backup|sicherung|zweite)[ -]?gpt|gpt[ -]?(backup|sicherung)")) {
            return open.disk().maps().stream().map(FoundMap::map).filter(map -> map.kind().equals("gpt") && map.copy() == Copy.BACKUP)
                    .mapToLong(map -> map.lba() * size()).findFirst();
        }
        if (text.matches("end|ende")) {
            return OptionalLong.of(Math.max(0, open.image().bytes() - 1));
        }
        Matcher matcher = WITH_NUMBER.matcher(text);
        if (!matcher.matches()) {
            return OptionalLong.empty();
        }
        String number = matcher.group("number").replace("\u2212", "-").replace(" ", "");
        boolean relative = number.startsWith("+") || number.startsWith("-");
        Long value = Place.parse(relative ? number.substring(1) : number);
        if (value == null) {
            return OptionalLong.empty();
        }
        String words = matcher.group("words") == null ? "" : matcher.group("words").strip();
        return inside(place(words, value, relative ? number.charAt(0) : ' '));
    }

    private OptionalLong place(String words, long value, char sign) {
        return switch (words) {
            case "", "lba", "sector", "sektor" -> sign == ' ' ? sectors(value) : relative(value, sign);
            case "byte", "image byte", "abbild byte" -> OptionalLong.of(value);
            case "partition", "start of partition", "anfang von partition", "p" -> partition(value)
                    .map(p -> sectors(p.range().first())).orElse(OptionalLong.empty());
            case "end of partition", "ende von partition" -> partition(value).map(p -> sectors(p.range().last())).orElse(OptionalLong.empty());
            case "cluster", "record", "datensatz" -> volume().map(v -> v.address(words.equals("cluster") ? "cluster" : "record", value))
                    .orElse(OptionalLong.empty());
            default -> OptionalLong.empty();
        };
    }

    private OptionalLong relative(long value, char sign) {
        long bytes = value > Long.MAX_VALUE / size() ? -1 : value * size();
        if (bytes < 0) {
            return OptionalLong.empty();
        }
        return sign == '-' ? OptionalLong.of(caret - bytes) : caret > Long.MAX_VALUE - bytes ? OptionalLong.empty() : OptionalLong.of(caret + bytes);
    }

    private OptionalLong sectors(long lba) {
        return lba < 0 || lba > Long.MAX_VALUE / size() ? OptionalLong.empty() : OptionalLong.of(lba * size());
    }

    private Optional<Partition> partition(long number) {
        return open.disk().partitions().stream().filter(p -> p.number() == number).findFirst();
    }

    private Optional<Volume> volume() {
        return open.disk().volumeAt(caret);
    }

    private OptionalLong inside(OptionalLong address) {
        return address.isPresent() && address.getAsLong() >= 0 && address.getAsLong() < open.image().bytes() ? address : OptionalLong.empty();
    }

    private int size() {
        return open.image().sectorSize();
    }
}
