using System.Globalization;
using System.Text.RegularExpressions;
using MicRegister.Documents.Sheets;
using MicRegister.Metrology.Classes;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Facts;
using MicRegister.Register.Settings;

namespace MicRegister.Documents.Import;

/// <summary>Takes rows that hold limits of a requirement profile, or settings of the register.</summary>
internal sealed partial class RuleRows(ImportSession session)
{
    private static readonly string[] Settings = ["laboratory-days", "shipping-days", "swap-days", "inspection-days"];

    private readonly Dictionary<string, (string Name, string Statement, List<ProfileLimit> Limits)> _profiles = new(StringComparer.Ordinal);
    private readonly HashSet<(string Profile, string Key)> _said = [];
    private readonly Dictionary<string, int> _settings = new(StringComparer.Ordinal);

    /// <summary>One limit, added to its profile or in the place of the one that stands; the word none takes it out.</summary>
    public RowOutcome TakeLimit(RowReader row, string sheet)
    {
        var id = row.Text(Column.Profile) ?? throw Missing(row, Column.Profile);
        if (!IdShape().IsMatch(id)) throw row.Refused(Column.Profile, "an id of a profile has small letters, digits and dashes");
        var key = row.Text(Column.Limit)!;
        var known = LimitKey.Find(key) ?? throw row.Refused(Column.Limit, "allowed are "
            + string.Join(", ", LimitKey.All.Select(k => k.Key))
            + ", and KIND/QUANTITY after interval-months/, interval-days/, change/, "
                + string.Join(", ", CertificateLimits.Kinds.Select(k => k.Begin)));
        var words = row.Text(Column.LimitText);
        var value = row.Number(Column.Value, known.Unit, known.Least, known.Greatest);
        if (value is null && words is null) throw Missing(row, Column.Value);
        if (words != "none" && LimitKey.UnknownTable(key, words) is { } unknown)
            throw row.Refused(Column.LimitText, $"'{unknown}' is none of {string.Join(", ", LimitKey.TablesOf(key)!)}");
        if (LimitKey.SortOf(key) is { } sort && words != "none")
        {
            if (value is not null) throw row.Refused(Column.Value, "a class with its edition is wanted, under " + Column.LimitText.Key);
            if (LeastClass.Read(sort, words!, out var unclear) is null) throw row.Refused(Column.LimitText, unclear!);
        }
        var limit = new ProfileLimit(
            key, value, words, row.Text(Column.Source) ?? throw Missing(row, Column.Source), row.Text(Column.Certainty) ?? "own")
        {
            Document = row.Text(Column.LimitDocument),
            Edition = row.Text(Column.LimitEdition),
            Clause = row.Text(Column.LimitClause),
        };
        if (words != "none" && CertificateLimits.Wrong(limit) is not null)
            throw row.Refused(Column.LimitText, $"a number in {known.Unit}, or '{CertificateLimits.UntilDamaged}' where it is about maker's data");

        // Rows add to a profile or change it; what they do not name stays, so that a row put aside takes nothing with it.
        if (!_profiles.TryGetValue(id, out var profile))
        {
            var stands = session.Register.Profile(id)?.Written;
            _profiles[id] = profile = (
                Held(row.Text(Column.ProfileName), stands?.Name) ?? id,
                Held(row.Text(Column.Statement), stands?.Statement) ?? "Own profile; follow the authority's current text.",
                [.. stands?.Limits ?? []]);
        }
        if (!_said.Add((id, key)))
        {
            var twice = row.Refused(Column.Limit, "it stands twice for this profile");
            throw profile.Limits.Find(l => l.Key == key) is { } held && IsSame(held, limit) ? twice
                : session.Torn.Against(Subject.Profile(id), key, row, twice);
        }
        session.Torn.Says(Subject.Profile(id), key, row);
        var before = session.Register.Profile(id)?.Limit(key);
        if (before is not null && IsSame(before, limit)) limit = before;
        var at = profile.Limits.FindIndex(l => l.Key == key);
        if (words == "none") profile.Limits.RemoveAll(l => l.Key == key);
        else if (at >= 0) profile.Limits[at] = limit;
        else profile.Limits.Add(limit);
        session.Profiles.Add(id);
        var isGone = words == "none" && before is null && session.Register.Profile(id) is not null;
        var outcome = before == limit || isGone ? RowSort.AlreadyThere
            : before is null ? RowSort.New
            : RowSort.Changed;
        return new(sheet, row.Row.Number, outcome, $"profile {id}: {known.Label}")
        { Changes = PlannedChanges.Of(before, limit), Name = $"profile {id}: {known.Label}" };
    }

    // What stands, where a row says the same or nothing: a cell loses outer blanks.
    private static string? Held(string? said, string? stands) => said is null || CellText.Same(said, stands) ? stands ?? said : said;

    private static bool IsSame(ProfileLimit a, ProfileLimit b) => a.Value == b.Value && CellText.Same(a.Text, b.Text)
        && CellText.Same(a.Source, b.Source) && CellText.Same(a.Certainty, b.Certainty) && CellText.Same(a.Document, b.Document)
        && CellText.Same(a.Edition, b.Edition) && CellText.Same(a.Clause, b.Clause);

    /// <summary>One setting.</summary>
    public RowOutcome TakeSetting(RowReader row, string sheet)
    {
        var key = row.Text(Column.Setting)!;
        if (!Settings.Contains(key)) throw row.Refused(Column.Setting, "allowed are " + string.Join(", ", Settings));
        var days = row.Number(Column.Value, "", 0, 365) ?? throw Missing(row, Column.Value);
        if (days != Math.Floor(days)) throw row.Refused(Column.Value, "a whole number of days is wanted");
        var value = (int)days;
        var before = Value(session.Register.State.Settings, key);
        if (_settings.TryGetValue(key, out var said) && said != value)
            throw session.Torn.Against(Subject.TheRegister, key, row, row.Questioned(Column.Value, $"an earlier row says {Text(said)}"));
        session.Torn.Says(Subject.TheRegister, key, row);
        _settings[key] = value;
        return new(sheet, row.Row.Number, value == before ? RowSort.AlreadyThere : RowSort.Changed, $"{key} {before} → {value}")
        {
            Changes = value == before ? [] : [new(key, Text(before), Text(value))],
            Name = "settings",
        };
    }

    private static string Text(int days) => days.ToString(CultureInfo.InvariantCulture);

    /// <summary>States each profile and the settings as a whole.</summary>
    public void Finish()
    {
        foreach (var (id, (name, statement, limits)) in _profiles.OrderBy(p => p.Key, StringComparer.Ordinal))
        {
            var known = session.Register.Profile(id);
            if (known is not null && known.Written.Name == name && known.Written.Statement == statement
                && known.Written.Limits.SequenceEqual(limits)) continue;
            session.StateRule(new ProfileWritten(name, statement, limits), known is null ? Occurred.Unknown : null, 6, Subject.Profile(id));
        }
        var now = session.Register.State.Settings;
        var chosen = new SettingsChosen(Of("laboratory-days"), Of("shipping-days"), Of("swap-days"), Of("inspection-days"));
        if (chosen != now) session.StateRule(chosen, null, 6, Subject.TheRegister);
        Forget();

        int Of(string key) => _settings.GetValueOrDefault(key, Value(now, key));
    }

    /// <summary>Forgets the rows since they were stated last.</summary>
    public void Forget()
    {
        _profiles.Clear();
        _said.Clear();
        _settings.Clear();
    }

    private static int Value(SettingsChosen settings, string key) => key switch
    {
        "laboratory-days" => settings.LaboratoryDays,
        "shipping-days" => settings.ShippingDays,
        "swap-days" => settings.SwapDays,
        _ => settings.InspectionDays,
    };

    private static RowProblem Missing(RowReader row, Column column) =>
        new(RowSort.Refused, $"{column.Meaning} is missing.", row.HeaderOf(column), "");

    [GeneratedRegex("^[a-z0-9]+(-[a-z0-9]+)*$")]
    private static partial Regex IdShape();
}
