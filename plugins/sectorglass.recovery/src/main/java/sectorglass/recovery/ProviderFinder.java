package sectorglass.recovery;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

import sectorglass.disk.Claim;
import sectorglass.disk.Finder;
import sectorglass.disk.Sighting;
import sectorglass.disk.Signature;
import sectorglass.disk.Structure;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeInfo;
import sectorglass.disk.VolumeProvider;
import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;

/**
 * Finds the volumes of a provider that has no finder of its own, by those of its signatures that tell where the volume starts: the
 * provider is asked whether it recognises a volume there.
 */
final class ProviderFinder implements Finder {
    /** A claim below this is a guess that needs a partition around it. */
    private static final int SURE = 60;
    private static final int VERY_SURE = 95;

    private final VolumeProvider provider;
    private final List<String> kinds;

    /** @param known kinds that have a finder of their own */
    ProviderFinder(VolumeProvider provider, Set<String> known) {
        this.provider = provider;
        this.kinds = provider.kinds().stream().filter(k -> !known.contains(k)).toList();
    }

    @Override
    public List<String> kinds() {
        return kinds;
    }

    @Override
    public List<Signature> signatures() {
        return provider.signatures().stream().filter(s -> s.volumeOffset() >= 0 && s.bytes().length >= 2).toList();
    }

    @Override
    public Optional<Sighting> look(SectorImage image, long firstByte, Signature signature) {
        long start = firstByte - signature.volumeOffset();
        if (start < 0 || start % image.sectorSize() != 0) {
            return Optional.empty();
        }
        long first = start / image.sectorSize();
        if (first >= image.sectors()) {
            return Optional.empty();
        }
        Optional<Claim> claim = provider.recognise(new VolumeSite(image, new SectorRange(first, image.sectors() - first), null));
        if (claim.isEmpty() || claim.get().confidence() < SURE || !kinds.contains(claim.get().kind())) {
            return Optional.empty();
        }
        Volume volume = provider.open(claim.get());
        VolumeInfo info = volume.info();
        Map<String, Object> facts = new LinkedHashMap<>();
        put(facts, "label", info.label());
        put(facts, "clusterBytes", info.clusterBytes());
        put(facts, "bytes", info.bytes());
        List<Sighting.Evidence> evidence = new ArrayList<>();
        evidence.add(Sighting.Evidence.of(Sighting.Reason.FIELDS_AGREE));
        if (claim.get().confidence() >= VERY_SURE) {
            evidence.add(Sighting.Evidence.of(Sighting.Reason.CHECKSUM_HOLDS));
        }
        if (signature.bytes().length >= 4) {
            evidence.add(Sighting.Evidence.of(Sighting.Reason.LONG_SIGNATURE));
        }
        Structure own = volume.structureAt(firstByte).orElse(null);
        long bytes = info.bytes() == null || info.bytes() <= 0 ? Sighting.UNKNOWN : info.bytes();
        return Optional.of(new Sighting(claim.get().kind(), word(signature.structure()), Sighting.Copy.PRIMARY,
                own == null ? new ByteRange(firstByte, 512) : own.range(), own == null ? null : own.format(),
                own == null ? Map.of() : own.params(), 1, 0, facts, evidence,
                List.of(new Sighting.Vote("own-place", start, bytes, 3)), info.uuid() != null ? info.uuid() : info.serial(), info.latest()));
    }

    private static void put(Map<String, Object> facts, String name, Object value) {
        if (value != null) {
            facts.put(name, value);
        }
    }

    private static String word(String structure) {
        return structure.replace(' ', '-');
    }
}
