using System.Text;
using MicRegister.Documents.Import;
using MicRegister.Register;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Intake;
using MicRegister.Register.Settings;

namespace MicRegister.Documents.Tests.Import;

/// <summary>A register that takes lists over as the server does: the facts of the rows, then what says that they were taken over.</summary>
internal sealed class ImportedRegister
{
    private readonly List<Fact> _facts = [];
    private long _counter;

    public ImportedRegister(params IEnumerable<Fact> facts) => Now = FactList.RegisterOf(_facts = [.. facts]);

    public static DateOnly Today { get; } = new(2026, 6, 1);

    public Register.Register Now { get; private set; }

    public IReadOnlyList<Fact> Facts => _facts;

    /// <summary>Who speaks now.</summary>
    public Saying Say() => new(new(Occurred.At(new DateTimeOffset(2026, 6, 1, 8, 0, 0, TimeSpan.Zero)), "ada", "desk", ++_counter));

    /// <summary>Takes lists over in one act.</summary>
    /// <returns>Ids of the imports that brought something, and what became of the last list.</returns>
    public (IReadOnlyList<string> Imports, FileReport Report) Import(params IReadOnlyList<string> lists)
    {
        var session = new ImportSession(Now, Today);
        var (accepted, ids, report) = (new List<Fact>(), new List<string>(), (FileReport?)null);
        foreach (var list in lists)
        {
            var from = session.Facts.Count;
            report = session.Take(
                new MemoryStream(Encoding.UTF8.GetBytes(list)), "list.csv", ImportMapping.None with { AsOf = Today });
            var own = session.Facts.Skip(from).ToList();
            if (own.Count == 0) continue;
            var digest = own.Aggregate(default(SetDigest), (sum, f) => sum.With(f.Bytes.Span));
            var fact = FactText.WriteDerived(
                Say().Stamp, new ImportAccepted("list.csv", new string('0', 64), report.Rows, own.Count, digest.ToString()),
                [Subject.TheRegister]);
            accepted.Add(fact);
            ids.Add(fact.Id.ToString());
        }
        Add([.. session.Facts, .. accepted]);
        return (ids, report!);
    }

    /// <summary>Takes lists over as sheets of one file.</summary>
    /// <returns>Id of the import.</returns>
    public string ImportAsOne(params IReadOnlyList<string> sheets)
    {
        var session = new ImportSession(Now, Today);
        foreach (var sheet in sheets)
            session.Take(new MemoryStream(Encoding.UTF8.GetBytes(sheet)), "list.csv", ImportMapping.None with { AsOf = Today });
        var digest = session.Facts.Aggregate(default(SetDigest), (sum, f) => sum.With(f.Bytes.Span));
        var accepted = new ImportAccepted("list.csv", new string('0', 64), 1, session.Facts.Count, digest.ToString());
        var fact = FactText.WriteDerived(Say().Stamp, accepted, [Subject.TheRegister]);
        Add([.. session.Facts, fact]);
        return fact.Id.ToString();
    }

    /// <summary>States what was decided, where it was not rejected.</summary>
    public bool Do(Func<Register.Register, Saying, Result<IReadOnlyList<Fact>>> decide)
    {
        if (decide(Now, Say()) is not Result<IReadOnlyList<Fact>>.Accepted accepted) return false;
        Add(accepted.Value);
        return true;
    }

    /// <summary>All that the register answers, by subject.</summary>
    public SortedDictionary<string, string> Answers()
    {
        var answers = new SortedDictionary<string, string>(StringComparer.Ordinal)
        {
            [Subject.TheRegister] = $"{Now.State.Settings} {string.Join(',', Now.State.Imports.Select(i => i.File))}",
        };
        foreach (var id in Now.DeviceIds) answers[Subject.Device(id)] = Of(Now.Device(id)!);
        foreach (var id in Now.CampaignIds)
        {
            var c = Now.Campaign(id)!;
            answers[Subject.Campaign(id)] = $"{c.Plan?.Name} {c.Plan?.Profile} {c.Plan?.FirstDay} "
                + string.Join(';', c.Stations.OrderBy(s => s.Key, StringComparer.Ordinal).Select(s => $"{s.Key} {s.Value}")) + " "
                + string.Join(';', c.Chains.OrderBy(s => s.Key, StringComparer.Ordinal).Select(s => $"{s.Key} {string.Join(',', s.Value)}"))
                + " " + string.Join(',', c.KitOf(KitPurpose.Spare));
        }
        foreach (var id in Now.ProfileIds) answers[Subject.Profile(id)] = string.Join(';', Now.Profile(id)!.Written.Limits);
        return answers;
    }

    private static string Of(DeviceState d) => string.Join(" | ", d.Kind, d.Maker, d.Model, d.Serial, d.Place, d.Status,
        string.Join(';', d.Details.Select(x => $"{x.Key}={x.Value}")), string.Join(';', d.Notes.Select(n => n.What.Text)),
        string.Join(';', d.Inspections.Select(i => $"{i.Day} {i.What.Passed}")),
        string.Join(';', d.Certificates.Where(c => !c.IsAnnulled).Select(c => $"{c.Day} {c.InForce?.Value} {c.Issued.Laboratory}")),
        string.Join(';', d.Places.Select(p => $"{p.Day} {p.What.Place}")),
        string.Join(';', d.Statuses.Select(p => $"{p.Day} {p.What.Status}")));

    private void Add(IReadOnlyList<Fact> facts)
    {
        _facts.AddRange(facts);
        Now = FactList.RegisterOf(_facts);
    }
}
