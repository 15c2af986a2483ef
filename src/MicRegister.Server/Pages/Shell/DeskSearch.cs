using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Events;
using MicRegister.Register.Labels;
using MicRegister.Register.People;
using MicRegister.Server.Api;

namespace MicRegister.Server.Pages.Shell;

/// <summary>Something that the search found.</summary>
/// <param name="Sort">What it is, in a word.</param>
/// <param name="Title">Its name.</param>
/// <param name="Beside">What tells it from others of that name.</param>
/// <param name="Address">Where it stands.</param>
internal sealed record SearchHit(string Sort, string Title, string Beside, string Address);

/// <summary>
/// Finds a device by whatever is known of it, a label, a campaign, a station, an event, an event at a station, a person or a page by a few
/// words in any order. A number stands for itself alone: 12 is neither 112 nor 120.
/// </summary>
internal static class DeskSearch
{
    /// <summary>How many are told.</summary>
    public const int Most = 8;

    private const int MostWords = 8;

    /// <summary>What fits, best first, at most <see cref="Most"/>; and how many devices fit beyond those.</summary>
    /// <param name="register">The facts.</param>
    /// <param name="fleet">Its devices as rows.</param>
    /// <param name="text">What was typed.</param>
    /// <param name="held">Duties of who asks: pages beyond them are not told.</param>
    /// <param name="today">The day: what is under way or ahead comes before what is over.</param>
    public static (IReadOnlyList<SearchHit> Hits, int More) Of(
        Register.Register register, FleetView fleet, string? text, Duties held, DateOnly today)
    {
        var words = (text ?? "").ToUpperInvariant().Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        if (words.Length is 0 or > MostWords) return ([.. Pages([], held).Take(Most)], 0);
        var devices = fleet.Find(register, text);
        var exact = devices.Where(d => words.Contains(d.Serial?.ToUpperInvariant())).ToList();
        var campaigns = register.CampaignIds.Select(id => register.Campaign(id)!).Where(c => c.Plan is not null)
            .OrderBy(c => c.Plan!.LastDay < today).ThenBy(c => Math.Abs(c.Plan!.FirstDay.DayNumber - today.DayNumber)).ToList();
        var hits = OfLabel(register, text).Concat(exact.Select(Hit)).Concat(InCampaigns(register, campaigns, words))
            .Concat(Pages(words, held)).Concat(devices.Except(exact).Take(Most).Select(Hit)).Concat(People(register, words))
            .DistinctBy(h => h.Address).Take(Most).ToList();
        return (hits, devices.Count - hits.Count(h => h.Address.StartsWith("devices/", StringComparison.Ordinal)));
    }

    private static SearchHit Hit(FleetRow row) => new(
        row.KindLabel, $"{row.Model} {row.Serial}".Trim() is { Length: > 0 } name ? name : row.Id,
        string.Join(", ", new[] { row.Place, row.Status.InWords }.Where(t => !string.IsNullOrEmpty(t))),
        DeviceAddress.Of(row.Id));

    private static IEnumerable<SearchHit> OfLabel(Register.Register register, string? text) =>
        !LabelCode.TryRead(text, out var code, out _) ? []
        : LabelBook.Of(register, code).Select(b => LabelBook.Name(register, b)).DefaultIfEmpty("on nothing")
            .Select(name => new SearchHit("Label", code.Spoken, name, "l/" + code.Text)).Take(1);

    // Events first: who types a station and a run wants what applies to that station in that run.
    private static IEnumerable<SearchHit> InCampaigns(Register.Register register, List<CampaignState> campaigns, string[] words)
    {
        var (events, stations, whole) = (new List<SearchHit>(), new List<SearchHit>(), new List<SearchHit>());
        foreach (var campaign in campaigns)
        {
            var (id, name) = (Uri.EscapeDataString(campaign.Id), campaign.Plan!.Name);
            // Words of the campaign's own name narrow it down, and are not asked of what stands in it.
            // A bare number alone may be a station or a run; beside a word of the name it may be part of that.
            var isNamed = words.Any(w => Number(w) is null && (IsIn(w, name) || IsIn(w, campaign.Id)));
            var left = isNamed ? [.. words.Where(w => !IsIn(w, name) && !IsIn(w, campaign.Id))] : words;
            if (left.Length == 0) whole.Add(new("Campaign", name, $"from {campaign.Plan.FirstDay:yyyy-MM-dd}", "campaigns/" + id));
            var named = campaign.Stations.Keys.Select(s => (Name: s, Word: left.FirstOrDefault(w => IsStation(w, s))))
                .Where(s => s.Word is not null).ToList();
            if (left.Length == 1)
            {
                stations.AddRange(named.Take(Most)
                    .Select(s => new SearchHit("Station", s.Name, name, $"campaigns/{id}?station={Uri.EscapeDataString(s.Name)}")));
            }
            if (left.Length == 0) continue;
            foreach (var e in EventBook.OfCampaign(register, campaign.Id))
            {
                if (events.Count >= Most) break;
                var address = EventAddress.Of(e);
                if (left.All(w => IsIn(w, e.Name))) events.Add(new("Event", e.Name, name, address));
                else if (named.FirstOrDefault(s => IsAt(e.Name, s.Word!, left)) is { Name: { } at })
                    events.Add(new("Event", $"{e.Name} at {at}", name, $"{address}?station={Uri.EscapeDataString(at)}"));
            }
        }
        return events.Concat(stations).Concat(whole);
    }

    // All other words are the event's, and tell its number: "run 12" is no run 1 at station 12.
    private static bool IsAt(string name, string station, string[] words) =>
        words.Where(w => w != station).ToArray() is { Length: > 0 } others && others.All(w => IsIn(w, name))
        && Parts(name).Select(Number).OfType<string>().All(n => others.SelectMany(Parts).Select(Number).Contains(n));

    private static IEnumerable<SearchHit> Pages(string[] words, Duties held) => DeskPlaces.All
        .Where(p => p.IsFor(held) && words.All(w => $"{p.Label} {p.Words}".Contains(w, StringComparison.OrdinalIgnoreCase)))
        .Select(p => new SearchHit("Page", p.Label, "", p.Address.Length == 0 ? "." : p.Address));

    private static IEnumerable<SearchHit> People(Register.Register register, string[] words) => register.PersonIds
        .Select(register.Person).OfType<PersonState>().Where(p => words.All(w => IsIn(w, p.Name)))
        .Select(p => new SearchHit("Person", p.Name, "what they said", "journal?by=" + Uri.EscapeDataString(p.Id)));

    // A word of several parts, such as "fly-by" or "c1", stands in a name where they follow each other there.
    private static bool IsIn(string word, string name)
    {
        if (word.Length > 1 && Number(word) is null && string.Equals(word, name, StringComparison.OrdinalIgnoreCase)) return true;
        List<string> parts = [.. Parts(name)], wanted = [.. Parts(word)];
        return wanted.Count > 0 && Enumerable.Range(0, Math.Max(0, parts.Count - wanted.Count + 1))
            .Any(i => wanted.Select((w, k) => IsPart(w, parts[i + k], k == wanted.Count - 1)).All(fits => fits));
    }

    private static bool IsPart(string word, string part, bool isLast) =>
        Number(word) is { } number ? Number(part) == number
        : isLast ? part.StartsWith(word, StringComparison.OrdinalIgnoreCase)
        : string.Equals(part, word, StringComparison.OrdinalIgnoreCase);

    private static bool IsStation(string word, string station) => string.Equals(word, station, StringComparison.OrdinalIgnoreCase)
        || (Number(word) is { } number && Parts(station).Count(p => Number(p) is not null) == 1
            && Parts(station).Any(p => Number(p) == number));

    // Letters and digits apart: "Run 012", "S37" and "QUILLMERE-26" are words and numbers.
    private static IEnumerable<string> Parts(string name)
    {
        for (var i = 0; i < name.Length;)
        {
            var j = i;
            if (char.IsAsciiDigit(name[i])) while (j < name.Length && char.IsAsciiDigit(name[j])) j++;
            else while (j < name.Length && char.IsLetter(name[j])) j++;
            if (j > i) yield return name[i..j];
            i = Math.Max(i + 1, j);
        }
    }

    private static string? Number(string text) => text.Length > 0 && text.All(char.IsAsciiDigit)
        ? text.TrimStart('0') is { Length: > 0 } n ? n : "0"
        : null;
}
