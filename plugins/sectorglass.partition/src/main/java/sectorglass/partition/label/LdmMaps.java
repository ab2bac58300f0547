package sectorglass.partition.label;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;

import org.osgi.service.component.annotations.Component;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import sectorglass.disk.Disk;
import sectorglass.disk.MapEntry;
import sectorglass.disk.MapProvider;
import sectorglass.disk.PartitionMap;
import sectorglass.disk.Structure;
import sectorglass.image.SectorImage;
import sectorglass.partition.BeyondEnd;
import sectorglass.partition.gpt.GptMaps;
import sectorglass.partition.mbr.MbrMaps;
import sectorglass.verify.Checks;
import sectorglass.verify.Outcome;
import sectorglass.verify.Phrase;

/**
 * The private header of a dynamic disk: in sector 6 of an MBR disk with a slot of type 42; in the last sector of the metadata partition
 * of a GPT disk (from memory). The database itself is not read: its volumes are not listed.
 */
@Component(service = MapProvider.class)
@ServiceProvider(value = MapProvider.class, resolution = Resolution.OPTIONAL)
public final class LdmMaps implements MapProvider {
    private static final String METADATA = "5808c8aa-7e8f-42e0-85d2-e1e90434cfb3";
    private static final long MBR_HEADER = 6;
    /** Where the copies lie, counted from the first sector of the database. */
    private static final long[] COPIES = {1856, 2047};
    private static final long MAX_LBA = 1L << 50;

    @Override
    public List<PartitionMap> locate(SectorImage image) {
        LdmHeader header = header(image);
        if (header == null) {
            return List.of();
        }
        List<Structure> structures = new ArrayList<>();
        structures.add(structure("private header", header));
        if (header.found()) {
            copies(header, image).stream().filter(LdmHeader::found).forEach(copy -> structures.add(structure("copy of the private header", copy)));
        }
        return List.of(new PartitionMap("ldm", header.lba(), header.found() ? header.diskGuid() : null, PartitionMap.Copy.PRIMARY, false,
                header.found() ? "dynamic disk: volumes are described by its database, which is not read here" : "no private header stands here",
                List.of(), List.of(header.bytes().range()), List.copyOf(structures)));
    }

    private static Structure structure(String name, LdmHeader header) {
        return Structure.plain(name, "ldm_privhead", header.bytes().start(), LdmHeader.LENGTH, Map.of());
    }

    /** The header where one belongs, or null where the disk is no dynamic disk. */
    private static LdmHeader header(SectorImage image) {
        for (PartitionMap map : new MbrMaps().locate(image)) {
            if (map.kind().equals("mbr") && map.entries().stream().anyMatch(e -> e.type().equals("42"))) {
                return LdmHeader.read(image, MBR_HEADER);
            }
        }
        for (PartitionMap map : new GptMaps().locate(image)) {
            for (MapEntry entry : map.entries()) {
                if (!map.leftover() && entry.type().equals(METADATA) && entry.range().count() > 0) {
                    return LdmHeader.read(image, entry.range().last());
                }
            }
        }
        return null;
    }

    private static List<LdmHeader> copies(LdmHeader header, SectorImage image) {
        List<LdmHeader> copies = new ArrayList<>();
        for (long offset : COPIES) {
            long lba = header.databaseStart() + offset;
            if (header.databaseStart() >= 0 && header.databaseStart() < MAX_LBA && lba < image.sectors() && lba != header.lba()) {
                copies.add(LdmHeader.read(image, lba));
            }
        }
        return copies;
    }

    @Override
    public void check(PartitionMap map, Disk disk, Checks all) {
        SectorImage image = disk.image();
        LdmHeader header = header(image);
        if (header == null) {
            return;
        }
        Checks out = all.in(header.bytes().range());
        out.check("ldm.privhead", header.bytes().range(), () -> sound(header));
        if (!header.found()) {
            return;
        }
        out.report("ldm.privhead-checksum", header.bytes().range(LdmHeader.CHECKSUM, 4), Outcome.test(
                header.bytes().u32be(LdmHeader.CHECKSUM) == header.sum(), String.format(Locale.ROOT, "%08X",
                        header.bytes().u32be(LdmHeader.CHECKSUM)), String.format(Locale.ROOT, "%08X", header.sum())));
        long end = header.databaseStart() + header.databaseSize();
        out.report("ldm.database", header.bytes().range(LdmHeader.DATABASE_START, 16), Outcome.test(header.databaseStart() >= 0
                && header.databaseSize() >= 0 && end >= 0 && end <= image.sectors(), Long.toUnsignedString(end - 1), image.sectors() - 1)
                .with("causes", BeyondEnd.causes(end, image)));
        for (LdmHeader copy : copies(header, image)) {
            all.in(copy.bytes().range()).check("ldm.copies-equal", copy.bytes().range(), () -> {
                copy.bytes().require(0, LdmHeader.LENGTH);
                boolean same = java.util.Arrays.equals(copy.bytes().bytes(LdmHeader.MAJOR, LdmHeader.LENGTH - LdmHeader.MAJOR),
                        header.bytes().bytes(LdmHeader.MAJOR, LdmHeader.LENGTH - LdmHeader.MAJOR));
                return Outcome.test(same, "another content", "the content of LBA " + header.lba());
            });
        }
    }

    private static Outcome sound(LdmHeader header) {
        header.bytes().require(0, LdmHeader.LENGTH);
        if (!header.found()) {
            return Outcome.failed("no PRIVHEAD", "PRIVHEAD").with("problem", Phrase.of("problem.signature")).at(header.bytes().range(0, 8));
        }
        if (!header.versionKnown()) {
            return Outcome.failed(header.bytes().u16be(LdmHeader.MAJOR) + "." + header.bytes().u16be(LdmHeader.MINOR), "2.11 or 2.12")
                    .with("problem", Phrase.of("problem.version")).at(header.bytes().range(LdmHeader.MAJOR, 4));
        }
        return Outcome.test(header.ordered(), "database at " + Long.toUnsignedString(header.databaseStart()), "after the data area")
                .with("problem", Phrase.of("problem.order")).at(header.bytes().range(LdmHeader.DATABASE_START, 8));
    }
}
