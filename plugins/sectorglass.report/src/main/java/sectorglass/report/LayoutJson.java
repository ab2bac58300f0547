package sectorglass.report;

import java.util.List;

import sectorglass.disk.Disk;
import sectorglass.disk.FirstLook;
import sectorglass.disk.MapEntry;
import sectorglass.disk.MapVerdict;
import sectorglass.disk.Nominal;
import sectorglass.disk.Partition;
import sectorglass.disk.PartitionMap;
import sectorglass.disk.ReadCount;
import sectorglass.disk.Role;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeInfo;
import sectorglass.image.PartOrder;
import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;

/** The layout of a disk as JSON. */
public final class LayoutJson {

    private LayoutJson() {
    }

    /**
     * Writes one object.
     *
     * @param path of the image as the person gave it
     * @param verdicts one per map of the disk
     * @param order what is known of the order of the image's parts, or null where it has one part
     */
    public static void write(JsonOut out, String path, Disk disk, List<MapVerdict> verdicts, FirstLook look, PartOrder order) {
        out.object(() -> {
            out.object("image", () -> image(out, path, disk.image(), look.nominal()));
            out.object("firstLook", () -> look(out, look));
            out.object("readState", () -> counts(out, ReadCount.of(disk.image(), disk.image().all())));
            out.array("maps", indexes(disk.maps().size()), i -> map(out, disk.maps().get((Integer) i).map(), verdicts.get((Integer) i)));
            out.array("partitions", disk.partitions(), p -> partition(out, disk.image(), (Partition) p));
            if (disk.volume() == null) {
                out.field("volume", null);
            } else {
                out.object("volume", () -> volume(out, disk.volume()));
            }
            if (order == null) {
                out.field("parts", null);
            } else {
                parts(out, order);
            }
        }).line();
    }

    private static void parts(JsonOut out, PartOrder order) {
        out.array("parts", indexes(order.parts().size()), i -> {
            PartOrder.Place place = order.parts().get((Integer) i);
            out.object(() -> {
                out.field("file", place.part().missing() ? null : place.part().file().toString())
                        .field("firstByte", place.part().start()).field("bytes", place.part().bytes()).field("agreeing", place.agreeing())
                        .field("elsewhere", place.elsewhere()).field("shift", place.shift())
                        .field("joinedToNext", (Integer) i < order.joined().size() && order.joined().get((Integer) i))
                        .field("proposed", order.proposed().indexOf(i) + 1);
                if (place.grid() == null) {
                    out.field("begin", null);
                } else {
                    out.object("begin", () -> out.field("remainder", place.grid().remainder()).field("structures", place.grid().count())
                            .field("structure", place.grid().structure()).field("withSectors", place.onGrid()).field("fits", place.fits()));
                }
            });
        });
    }

    private static List<Integer> indexes(int count) {
        return java.util.stream.IntStream.range(0, count).boxed().toList();
    }

    private static void image(JsonOut out, String path, SectorImage image, Nominal nominal) {
        out.field("path", path).field("bytes", image.bytes()).field("sectorSize", image.sectorSize()).field("sectors", image.sectors());
        if (nominal == null) {
            out.field("nominal", null);
        } else {
            out.object("nominal", () -> out.field("gigabytes", nominal.gigabytes()).field("sectors", nominal.sectors())
                    .field("complete", nominal.complete()));
        }
    }

    private static void look(JsonOut out, FirstLook look) {
        FirstLook.Samples s = look.samples();
        out.object("samples", () -> out.field("zero", s.zero()).field("repeated", s.repeated()).field("text", s.text())
                .field("structure", s.structure()).field("highEntropy", s.highEntropy()).field("other", s.other())
                .field("unread", s.unread()));
        out.array("identities", look.identities(), i -> {
            FirstLook.Identity identity = (FirstLook.Identity) i;
            out.object(() -> out.field("kind", identity.kind()).field("value", identity.value()).field("where", identity.where()));
        });
        out.field("latestDate", look.latestDate());
        out.array("remarks", look.remarks(), out::value);
    }

    private static void readState(JsonOut out, ReadCount count) {
        if (count == null) {
            out.field("readState", null);
        } else {
            out.object("readState", () -> counts(out, count));
        }
    }

    private static void counts(JsonOut out, ReadCount count) {
        for (ReadState state : ReadState.values()) {
            out.field(state.word(), count.of(state));
        }
    }

    private static void map(JsonOut out, PartitionMap map, MapVerdict verdict) {
        out.object(() -> out.field("kind", map.kind()).field("lba", map.lba()).field("id", map.id()).field("copy", map.copy().word())
                .field("leftover", map.leftover()).field("consistent", verdict.consistent())
                .field("fitsContent", verdict.fitsContent()).field("remark", map.remark()));
    }

    private static void partition(JsonOut out, SectorImage image, Partition partition) {
        MapEntry entry = partition.entry();
        out.object(() -> {
            out.field("number", partition.number()).field("map", partition.map() < 0 ? null : partition.map())
                    .field("entry", entry.slot()).field("firstLba", partition.placed() ? entry.range().first() : null).field("sectors", entry.range().count())
                    .field("type", entry.type()).field("typeName", entry.typeName()).field("name", entry.name())
                    .field("uuid", entry.uuid()).field("active", entry.active());
            readState(out, ReadCount.of(image, partition));
            out.array("roles", partition.roles(), r -> {
                Role role = (Role) r;
                out.object(() -> {
                    out.field("role", role.role().word());
                    out.array("reasons", role.reasons(), out::value);
                });
            });
            Volume volume = partition.volume();
            if (volume == null) {
                out.field("volume", null);
            } else {
                out.object("volume", () -> volume(out, volume));
            }
        });
    }

    private static void volume(JsonOut out, Volume volume) {
        VolumeInfo info = volume.info();
        out.field("kind", info.kind()).field("label", info.label()).field("bootLabel", info.bootLabel())
                .field("serial", info.serial()).field("uuid", info.uuid()).field("clusterBytes", info.clusterBytes())
                .field("bytes", info.bytes()).field("usedBytes", info.usedBytes());
        readState(out, ReadCount.of(volume));
        out.array("remarks", info.remarks(), out::value);
    }
}
