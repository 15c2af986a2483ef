using System.Text.RegularExpressions;
using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Facts;

namespace MicRegister.Documents.Import;

/// <summary>Takes rows that hold limits of a requirement profile, or settings of the register.</summary>
internal sealed partial class RuleRows(ImportSession session)
{
    private static readonly string[] Settings = ["laboratory-days", "shipping-days", "swap-days", "inspection-days"];

    private readonly Dictionary<string, (string Name, string Statement, List<ProfileLimit> Limits)> _profiles = new(StringComparer.Ordinal);
    private readonly Dictionary<string, int> _settings = new(StringComparer.Ordinal);

    /// <summary>One limit; a profile holds all limits that its rows give, and no other.</summary>
    public RowOutcome TakeLimit(RowReader row, string sheet)
    {
        var id = row.Text(Column.Profile) ?? throw Missing(row, Column.Profile);
        if (!IdShape().IsMatch(id)) throw row.Refused(Column.Profile, "an id of a profile has small letters, digits and dashes");
        var key = row.Text(Column.Limit)!;
        var known = LimitKey.Find(key) ?? throw row.Refused(Column.Limit, "allowed are " + string.Join(", ", LimitKey.All.Select(k => k.Key)) + ", interval-months/KIND/QUANTITY and interval-days/KIND/QUANTITY");
        var words = row.Text(Column.LimitText);
        var value = row.Number(Column.Value, known.Unit, 0, 1e6);
        if (value is null && words is null) throw Missing(row, Column.Value);
        var limit = new ProfileLimit(key, value, words, row.Text(Column.Source) ?? throw Missing(row, Column.Source), row.Text(Column.Certainty) ?? "own");

        if (!_profiles.TryGetValue(id, out var profile)) _profiles[id] = profile = (id, row.Text(Column.Statement) ?? "Own profile; follow the authority's current text.", []);
        if (profile.Limits.Any(l => l.Key == key)) throw row.Refused(Column.Limit, "it stands twice in this profile");
        profile.Limits.Add(limit);
        session.Profiles.Add(id);
        return new(sheet, row.Row.Number, session.Register.Profile(id)?.Limit(key) == limit ? RowSort.AlreadyThere : RowSort.New, $"profile {id}: {known.Label}");
    }

    /// <summary>One setting.</summary>
    public RowOutcome TakeSetting(RowReader row, string sheet)
    {
        var key = row.Text(Column.Setting)!;
        if (!Settings.Contains(key)) throw row.Refused(Column.Setting, "allowed are " + string.Join(", ", Settings));
        var value = (int)(row.Number(Column.Value, "", 0, 365) ?? throw Missing(row, Column.Value));
        var before = Value(session.Register.State.Settings, key);
        _settings[key] = value;
        return new(sheet, row.Row.Number, value == before ? RowSort.AlreadyThere : RowSort.Changed, $"{key} {before} → {value}");
    }

    /// <summary>States each profile and the settings as a whole.</summary>
    public void Finish()
    {
        foreach (var (id, (name, statement, limits)) in _profiles.OrderBy(p => p.Key, StringComparer.Ordinal))
        {
            var known = session.Register.Profile(id);
            if (known is { IsBuiltIn: false } && known.Written.Statement == statement && known.Written.Limits.SequenceEqual(limits)) continue;
            session.StateRule(new ProfileWritten(name, statement, limits), known is null ? Occurred.Unknown : Occurred.On(session.Today), 6, Subject.Profile(id));
        }
        var now = session.Register.State.Settings;
        var chosen = new SettingsChosen(Of("laboratory-days"), Of("shipping-days"), Of("swap-days"), Of("inspection-days"));
        if (chosen != now) session.StateRule(chosen, Occurred.On(session.Today), 6, Subject.TheRegister);
        _profiles.Clear();
        _settings.Clear();

        int Of(string key) => _settings.GetValueOrDefault(key, Value(now, key));
    }

    private static int Value(SettingsChosen settings, string key) => key switch
    {
        "laboratory-days" => settings.LaboratoryDays,
        "shipping-days" => settings.ShippingDays,
        "swap-days" => settings.SwapDays,
        _ => settings.InspectionDays,
    };

    private static RowProblem Missing(RowReader row, Column column) => new(RowSort.Refused, $"{column.Meaning} is missing.", row.HeaderOf(column), "");

    [GeneratedRegex("^[a-z0-9]+(-[a-z0-9]+)*$")]
    private static partial Regex IdShape();
}
