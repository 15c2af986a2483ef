using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Fold;

namespace MicRegister.Register.Campaigns;

/// <summary>What was said of a requirement profile, one edition after the other.</summary>
/// <param name="Editions">The built-in one first, then in the order of their times.</param>
/// <param name="State">What counts now.</param>
internal sealed record ProfileHistory(IReadOnlyList<ProfileEdition> Editions, ProfileState State)
{
    public static ProfileHistory Fold(string id, IEnumerable<FoldedFact> facts)
    {
        var builtIn = BuiltInProfiles.Find(id);
        List<ProfileEdition> editions = builtIn is null ? [] : [new(ProfileEdition.BuiltIn, builtIn.Written, null, null)];
        var inForce = editions.Count - 1;
        var isByNewer = false;
        // Versions that count no more, as long as nobody had taken them back: what confirmed without a digest then spoke of them.
        var passing = new HashSet<string>(StringComparer.Ordinal);
        foreach (var (fact, counts, _) in facts)
        {
            switch (fact?.Body)
            {
                case ProfileWritten written:
                    editions.Add(new(fact.Id.ToString(), written, fact.Occurred.Day, fact.Author) { Counts = counts });
                    if (!counts)
                    {
                        passing.Add(fact.Id.ToString());
                        break;
                    }
                    passing.Clear();
                    inForce = editions.Count - 1;
                    break;
                case ProfileConfirmed said when counts && inForce >= 0:
                    if (said.Digest is { } of ? of == editions[inForce].Digest : passing.Count == 0)
                        editions[inForce] = editions[inForce] with { Confirmed = Dated.Of(fact, said) };
                    break;
                case FactAnnulled annulled when counts:
                    passing.Remove(annulled.Target);
                    break;
                case UnreadBody when counts:
                    isByNewer = true;
                    break;
                default:
                    break;
            }
        }
        if (inForce < 0) return new(editions, new(id, new(id, "", []), null, false, isByNewer));
        var now = editions[inForce] = editions[inForce] with { IsInForce = true };
        return new(editions, new(id, now.Written, now.Confirmed?.What, now.Key == ProfileEdition.BuiltIn, isByNewer)
        {
            Edition = now.Key,
            ConfirmedBy = now.Confirmed?.Author,
            ConfirmedOn = now.Confirmed?.Day,
        });
    }
}
