package sectorglass.apple;

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
 * Finds HFS+ and HFSX volume headers: the first stands 1,024 bytes after the start of the volume, the alternate 1,024 bytes before its
 * end (Apple TN1150, "Volume Header"). The header node of the catalog tells which of the two it is.
 */
@Component(service = Finder.class)
@ServiceProvider(value = Finder.class, resolution = Resolution.OPTIONAL)
public final class HfsFinder implements Finder {
    private static final long HEADER = 1024;
    private static final int CATALOG = 272;     // fork data of the catalog file
    private static final int FIRST_EXTENT = 16; // u32 block, u32 count, in fork data
    private static final int MODIFIED = 20;     // u32, seconds since 1904

    @Override
    public List<String> kinds() {
        return List.of("hfsplus");
    }

    @Override
    public List<Signature> signatures() {
        return List.of(new Signature("HFS+ volume header", 0, new byte[] {'H', '+', 0, 4}, -1),
                new Signature("HFSX volume header", 0, new byte[] {'H', 'X', 0, 5}, -1));
    }

    @Override
    public Optional<Sighting> look(SectorImage image, long firstByte, Signature signature) {
        try {
            return header(image, firstByte);
        } catch (UnreadException e) {
            return Optional.empty();
        }
    }

    private static Optional<Sighting> header(SectorImage image, long at) {
        Window w = image.window(at, 512);
        if (!HfsPlus.plausible(w)) {
            return Optional.empty();
        }
        long block = w.u32be(40);
        long bytes = w.u32be(44) * block;
        long asFirst = at - HEADER;
        long asLast = at + HEADER - bytes;
        Boolean first = catalog(image, w, asFirst, block);
        Boolean last = catalog(image, w, asLast, block);
        int lead = Boolean.compare(Boolean.TRUE.equals(first), Boolean.TRUE.equals(last));
        lead = lead != 0 ? lead : Boolean.compare(header(image, asFirst + bytes - HEADER, at), header(image, asLast + HEADER, at));
        Boolean target = lead < 0 ? last : first;
        int weight = Boolean.TRUE.equals(target) ? 3 : lead != 0 ? 2 : 1;
        SightingBuilder sighting = new SightingBuilder("hfsplus", "volume-header", at, 512).format("hfsplus_volume_header", Map.of())
                .copy(lead > 0 ? Sighting.Copy.PRIMARY : lead < 0 ? Sighting.Copy.BACKUP : Sighting.Copy.UNDECIDED)
                .fact("blockBytes", block).fact("blocks", w.u32be(44)).fact("freeBlocks", w.u32be(48))
                .identity(HfsPlus.identity(w, 104)).latest(HfsPlus.date(w.u32be(MODIFIED)))
                .because(true, Sighting.Reason.FIELDS_AGREE).because(true, Sighting.Reason.LONG_SIGNATURE)
                .because(target == null, Sighting.Reason.TARGET_UNREAD).because(Boolean.TRUE.equals(target), Sighting.Reason.TARGET_FOUND)
                .because(Boolean.FALSE.equals(target), Sighting.Reason.TARGET_MISSING)
                .because(header(image, lead < 0 ? asLast + HEADER : asFirst + bytes - HEADER, at), Sighting.Reason.COPY_EQUAL);
        if (lead >= 0) {
            sighting.vote("own-place", asFirst, bytes, weight);
        }
        if (lead <= 0) {
            sighting.vote("alternate-place", asLast, bytes, weight);
        }
        return Optional.of(sighting.build());
    }

    /** Whether the header node of a B-tree stands where the catalog would: kind 1, level 0 (TN1150, "Node Descriptor"); null if not read. */
    private static Boolean catalog(SectorImage image, Window header, long start, long block) {
        long at = start + header.u32be(CATALOG + FIRST_EXTENT) * block;
        if (header.u32be(CATALOG + FIRST_EXTENT + 4) == 0 || start < 0) {
            return false;
        }
        if (at > image.bytes() - 14) {
            return null;
        }
        Window node = image.window(at, 14);
        return node.isRead(0, 14) ? node.u8(8) == 1 && node.u8(9) == 0 && node.u16be(10) == 3 : null;
    }

    private static boolean header(SectorImage image, long at, long own) {
        if (at < 0 || at == own || at > image.bytes() - 512) {
            return false;
        }
        Window w = image.window(at, 512);
        return w.isRead(0, 512) && HfsPlus.signature(w);
    }
}
