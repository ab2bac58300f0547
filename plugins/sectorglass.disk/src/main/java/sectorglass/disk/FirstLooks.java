package sectorglass.disk;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.ResourceBundle;
import java.util.Set;

import sectorglass.image.Providers;
import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;

/** Takes the first look at a surveyed disk. */
public final class FirstLooks {
    private final Disk disk;
    private final ResourceBundle words;

    private FirstLooks(Disk disk, Locale locale) {
        this.disk = disk;
        this.words = ResourceBundle.getBundle("sectorglass.disk.words", locale, FirstLooks.class.getClassLoader(),
                ResourceBundle.Control.getNoFallbackControl(ResourceBundle.Control.FORMAT_PROPERTIES));
    }

    /** The first look at a disk, its remarks in the language. */
    public static FirstLook of(Disk disk, Locale locale) {
        return new FirstLooks(disk, locale).take();
    }

    private FirstLook take() {
        FirstLook.Samples samples = Sampler.ofProviders().sample(disk.image());
        Nominal nominal = nominal().orElse(null);
        return new FirstLook(samples, identities(), latest(), remarks(samples, nominal), nominal);
    }

    private Optional<Nominal> nominal() {
        for (CapacityRule rule : Providers.all(CapacityRule.class)) {
            Optional<Nominal> found = rule.nearest(disk.image().sectors(), disk.image().sectorSize());
            if (found.isPresent()) {
                return found;
            }
        }
        return Optional.empty();
    }

    private List<FirstLook.Identity> identities() {
        Set<FirstLook.Identity> all = new LinkedHashSet<>();
        for (Disk.FoundMap found : disk.maps()) {
            PartitionMap map = found.map();
            if (map.id() != null) {
                all.add(new FirstLook.Identity(map.kind().equals("gpt") ? "disk GUID" : "disk signature", map.id(),
                        map.kind() + (map.leftover() ? " (leftover)" : "")));
            }
        }
        for (Partition partition : disk.partitions()) {
            String where = "partition " + partition.number();
            add(all, "partition GUID", partition.entry().uuid(), where);
            if (partition.volume() != null) {
                volume(all, partition.volume().info(), where);
            }
        }
        if (disk.volume() != null) {
            volume(all, disk.volume().info(), "volume");
        }
        return List.copyOf(all);
    }

    private static void volume(Set<FirstLook.Identity> all, VolumeInfo info, String where) {
        add(all, "label", info.label(), where);
        add(all, "serial", info.serial(), where);
        add(all, "uuid", info.uuid(), where);
    }

    private static void add(Set<FirstLook.Identity> all, String kind, String value, String where) {
        if (value != null && !value.isEmpty()) {
            all.add(new FirstLook.Identity(kind, value, where));
        }
    }

    private Instant latest() {
        Instant latest = null;
        List<Volume> volumes = new ArrayList<>(disk.partitions().stream().map(Partition::volume).toList());
        volumes.add(disk.volume());
        for (Volume volume : volumes) {
            Instant date = volume == null ? null : volume.info().latest();
            if (date != null && (latest == null || date.isAfter(latest))) {
                latest = date;
            }
        }
        return latest;
    }

    private List<String> remarks(FirstLook.Samples samples, Nominal nominal) {
        List<String> all = new ArrayList<>(disk.remarks());
        SectorImage image = disk.image();
        long unread = image.sectors() - image.inState(ReadState.READ, image.all()).count();
        if (unread > 0) {
            all.add(say("unread", grouped(unread), grouped(image.sectors()), share(unread, image.sectors())));
        }
        if (nominal != null && !nominal.complete()) {
            all.add(say("nominal", nominal.gigabytes(), grouped(nominal.sectors()), grouped(image.sectors()),
                    grouped(nominal.sectors() - image.sectors())));
        }
        if (disk.maps().isEmpty() && disk.volume() == null) {
            boolean known = image.state(0) == ReadState.READ;
            all.add(say(known ? "no-map" : "no-map-unread"));
        }
        if (samples.read() >= 16 && samples.highEntropy() * 20 >= samples.read() * 19) {
            all.add(say("entropy"));
        }
        if (samples.read() >= 16 && samples.zero() == samples.read()) {
            all.add(say("zero"));
        } else if (samples.read() >= 16 && (samples.repeated()) * 2 > samples.read()) {
            all.add(say("repeated"));
        }
        for (Disk.FoundMap found : disk.maps()) {
            if (found.map().remark() != null) {
                all.add(found.map().kind().toUpperCase(Locale.ROOT) + ", LBA " + grouped(found.map().lba()) + ": " + found.map().remark());
            }
        }
        return List.copyOf(all);
    }

    private String say(String key, Object... values) {
        return String.format(Locale.ROOT, words.getString(key), values);
    }

    private static String share(long part, long whole) {
        return String.format(Locale.ROOT, "%.1f", 100.0 * part / whole);
    }

    /** Digits in groups of three with thin spaces. */
    static String grouped(long number) {
        return String.format(Locale.ROOT, "%,d", number).replace(',', '\u2009');
    }
}
