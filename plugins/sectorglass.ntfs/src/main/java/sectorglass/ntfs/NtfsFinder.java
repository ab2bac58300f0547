package sectorglass.ntfs;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Optional;

import org.osgi.service.component.annotations.Component;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import sectorglass.disk.Finder;
import sectorglass.disk.Sighting;
import sectorglass.disk.SightingBuilder;
import sectorglass.disk.Signature;
import sectorglass.image.SectorImage;
import sectorglass.image.UnreadException;
import sectorglass.image.Window;

/**
 * Finds boot sectors, first or last, and file records. A boot sector tells the start of its volume once it is known which of the two
 * it is: file records stand where one of the two starts puts the table of files and its mirror.
 */
@Component(service = Finder.class)
@ServiceProvider(value = Finder.class, resolution = Resolution.OPTIONAL)
public final class NtfsFinder implements Finder {
    private static final byte[] RECORD = "FILE".getBytes(StandardCharsets.US_ASCII);

    @Override
    public List<String> kinds() {
        return List.of("ntfs");
    }

    @Override
    public List<Signature> signatures() {
        return List.of(new Signature("NTFS boot sector", BootSector.OEM_ID, BootSector.OEM.getBytes(StandardCharsets.US_ASCII), -1),
                new Signature("NTFS file record", 0, RECORD, -1));
    }

    @Override
    public boolean inRows(Signature signature) {
        return signature.offset() == 0;
    }

    @Override
    public Optional<Sighting> look(SectorImage image, long firstByte, Signature signature) {
        try {
            return signature.offset() == 0 ? new RecordSighting(image, firstByte).sighting() : boot(image, firstByte);
        } catch (UnreadException e) {
            return Optional.empty();
        }
    }

    private static Optional<Sighting> boot(SectorImage image, long at) {
        Window boot = image.window(at, BootSector.LENGTH);
        Geometry first = BootSector.geometry(boot, at, image.bytes() - at);
        if (first == null) {
            return Optional.empty();
        }
        boolean sound = BootSector.sound(boot, first);
        long behind = first.sectors() * first.sectorBytes();
        long bytes = behind + first.sectorBytes();
        Geometry last = BootSector.geometry(boot, at - behind, bytes);
        Targets asFirst = Targets.of(image, first);
        Targets asLast = Targets.of(image, last);
        boolean copyAhead = same(image, boot, at + behind);
        boolean copyBehind = at - behind >= 0 && same(image, boot, at - behind);
        long hidden = boot.u32le(BootSector.HIDDEN_SECTORS) * first.sectorBytes();
        int lead = Integer.compare(asFirst.found(), asLast.found());
        lead = lead != 0 ? lead : Boolean.compare(copyAhead, copyBehind);
        lead = lead != 0 ? lead : Boolean.compare(hidden == at && hidden > 0, hidden == at - behind && hidden > 0);
        lead = lead != 0 ? lead : at == 0 ? 1 : Integer.compare(asLast.missing(), asFirst.missing());
        long start = lead < 0 ? at - behind : at;
        Targets targets = lead < 0 ? asLast : asFirst;
        SightingBuilder sighting = new SightingBuilder("ntfs", "boot-sector", at, BootSector.LENGTH).format("ntfs_boot_sector", Map.of())
                .copy(lead > 0 ? Sighting.Copy.PRIMARY : lead < 0 ? Sighting.Copy.BACKUP : Sighting.Copy.UNDECIDED)
                .fact("bytesPerSector", (long) first.sectorBytes()).fact("clusterBytes", (long) first.clusterBytes())
                .fact("totalSectors", first.sectors()).fact("hiddenSectors", boot.u32le(BootSector.HIDDEN_SECTORS))
                .fact("mftCluster", first.mftLcn()).fact("mirrorCluster", first.mirrorLcn())
                .identity(String.format("%016X", first.serial()))
                .because(sound, Sighting.Reason.FIELDS_AGREE).because(!sound, Sighting.Reason.FIELDS_ILLEGAL)
                .because(true, Sighting.Reason.LONG_SIGNATURE)
                .because(targets.found() > 0, Sighting.Reason.TARGET_FOUND)
                .because(targets.found() == 0 && targets.missing() > 0, Sighting.Reason.TARGET_MISSING)
                .because(targets.found() == 0 && targets.missing() == 0, Sighting.Reason.TARGET_UNREAD)
                .because(lead < 0 ? copyBehind : copyAhead, Sighting.Reason.COPY_EQUAL)
                .because(hidden == start, Sighting.Reason.KNOWS_ITS_PLACE);
        int weight = targets.found() > 0 ? 3 : lead != 0 ? 2 : 1;
        if (lead >= 0) {
            sighting.vote("own-place", at, bytes, weight);
        }
        if (lead <= 0) {
            sighting.vote("total-sectors", at - behind, bytes, weight);
        }
        return Optional.of(sighting.build());
    }

    /** Whether an equal boot sector stands there. */
    private static boolean same(SectorImage image, Window boot, long at) {
        if (at > image.bytes() - BootSector.LENGTH) {
            return false;
        }
        Window other = image.window(at, BootSector.LENGTH);
        return other.isRead(0, BootSector.LENGTH) && java.util.Arrays.equals(other.raw(0, BootSector.LENGTH), boot.raw(0, BootSector.LENGTH));
    }

    /** How many of the two tables that a boot sector names stand where one start puts them, and at how many something else stands. */
    private record Targets(int found, int missing) {

        static Targets of(SectorImage image, Geometry geometry) {
            int found = 0;
            int missing = 0;
            for (long lcn : new long[] {geometry.mftLcn(), geometry.mirrorLcn()}) {
                if (!BootSector.lcnLegal(lcn, geometry)) {
                    continue;
                }
                long at = geometry.clusterByte(lcn);
                if (at < 0) {
                    missing++;
                    continue;
                }
                Window head = image.window(at, RECORD.length);
                if (head.isRead(0, RECORD.length)) {
                    boolean stands = head.matches(0, "FILE");
                    found += stands ? 1 : 0;
                    missing += stands ? 0 : 1;
                }
            }
            return new Targets(found, missing);
        }
    }
}
