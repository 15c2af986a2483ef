using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Intake;

namespace MicRegister.Documents.Tests.Import;

public sealed class TakeBackTests
{
    private const string Base = "Kind,Model,Serial,Size,Location\n"
        + "mic,A-12,101,12.7,Hall 1\nmic,A-12,102,12.7,Hall 1\nplate,P-1,7,,Hall 2\n";

    private const string Fleet = "Kind,Model,Serial,Size,Location,Status,Note,Date,Sensitivity,Lab\n"
        + "mic,A-12,101,,Van,lost,bent,2025-03-01,12.5 mV/Pa,House\n"
        + "mic,A-12,201,12.7,Van,,new,2025-03-01,12.5 mV/Pa,House\n"
        + "mic,A-12,202,12.7,Van,away,,2025-03-01,12.6 mV/Pa,House\n"
        + "mic,A-12,203,12.7,Van,,,,,\n";

    private const string Rules = "Profile,Limit,Value,Text,Source\nour-own,drift-db,0.4,,House rule 3\n";

    private const string Campaign = "Campaign,First day,Last day,Time zone,Altitude [m],Source,Band from,Band to,Profile,Permitted losses\n"
        + "Trial 1,2026-10-20,2026-10-30,Atlantic/Azores,120,drone,50,16000,our-own,2\n";

    private const string Stations = "Station,Lat,Lon,Mount,Microphone,Plate\nS1,38.2,-30.5,flush,201,7\n";

    private static readonly string Mic101 = DeviceIdentity.IdOf("microphone", null, "A-12", "101");
    private static readonly string Mic201 = DeviceIdentity.IdOf("microphone", null, "A-12", "201");
    private static readonly string Mic202 = DeviceIdentity.IdOf("microphone", null, "A-12", "202");

    [Fact]
    public void What_an_import_brought_goes_as_one_act_and_comes_back_as_one()
    {
        var register = new ImportedRegister();
        register.Import(Base);
        var before = register.Answers();
        var (imports, _) = register.Import(Fleet);
        var after = register.Answers();

        Assert.True(register.Do((r, s) => ImportTakeBack.TakeBack(r, s, imports[0], "wrong list")));
        Assert.Equal(before, register.Answers());
        Assert.Contains("wrong list", Assert.IsType<FactAnnulled>(register.Facts[^1].Body).Reason, StringComparison.Ordinal);
        Assert.Single(register.Facts.TakeLast(10).Select(f => (f.Author, f.Counter)).Distinct());

        Assert.True(register.Do((r, s) => ImportTakeBack.Undo(r, s, imports[0])));
        Assert.Equal(after, register.Answers());
        Assert.False(register.Do((r, s) => ImportTakeBack.Undo(r, s, imports[0])));
        Assert.True(register.Do((r, s) => ImportTakeBack.TakeBack(r, s, imports[0], null)));
        Assert.Equal(before, register.Answers());
    }

    [Fact]
    public void Taking_the_same_list_over_again_brings_it_back_however_often()
    {
        var register = new ImportedRegister();
        register.Import(Base);
        var before = register.Answers();
        register.Import(Fleet);
        var after = register.Answers();

        for (var round = 0; round < 3; round++)
        {
            var newest = register.Now.TakenImports()[^1].Fact.Id.ToString();
            Assert.True(register.Do((r, s) => ImportTakeBack.TakeBack(r, s, newest, null)));
            Assert.Equal(before, register.Answers());
            var (again, report) = register.Import(Fleet);
            Assert.Single(again);
            Assert.Contains(report.Outcomes, o => o.Text.Contains("was taken back before", StringComparison.Ordinal));
            Assert.Equal(after, register.Answers());
            Assert.Empty(register.Import(Fleet).Imports);
        }
    }

    [Fact]
    public void What_a_person_annulled_by_itself_does_not_come_back_with_the_list()
    {
        var register = new ImportedRegister();
        var (imports, _) = register.Import(Fleet);
        var note = register.Facts.First(f => f.Body is DeviceNoted { Text: "new" }).Id.ToString();
        Assert.True(register.Do((r, s) => CorrectionDecisions.Annul(r, s, note, "it is not")));
        Assert.True(register.Do((r, s) => ImportTakeBack.TakeBack(r, s, imports[0], null)));

        var (_, report) = register.Import(Fleet);

        Assert.Empty(register.Now.Device(Mic201)!.Notes);
        Assert.Equal("Van", register.Now.Device(Mic201)!.Place);
        Assert.Contains("was annulled by somebody and stays so", report.Outcomes[1].Text, StringComparison.Ordinal);
        Assert.DoesNotContain("stays so", report.Outcomes[0].Text, StringComparison.Ordinal);
    }

    [Fact]
    public void What_somebody_built_upon_stays_and_is_named()
    {
        var register = new ImportedRegister();
        register.Import(Base);
        var (imports, _) = register.Import(Fleet);
        Assert.True(register.Do((r, s) => DeviceDecisions.Move(r, s, Mic201, "Laboratory")));

        var plan = ImportTakeBack.Plan(register.Now, imports[0])!;

        Assert.All(plan.Stays, s => Assert.Equal(Subject.Device(Mic201), s.Fact.Subjects[0]));
        Assert.Equal(["device-registered", "device-moved", "device-noted", "certificate-issued"], plan.Stays.Select(s => s.Fact.Kind));
        Assert.Equal(new DeviceMoved("Laboratory"), Assert.Single(plan.Stays[0].On).Body);
        Assert.DoesNotContain(plan.Goes, f => f.Subjects[0] == Subject.Device(Mic201));
        Assert.True(register.Do((r, s) => ImportTakeBack.TakeBack(r, s, imports[0], null)));
        Assert.Null(register.Now.Device(Mic202)!.Kind);
        Assert.DoesNotContain(Mic202, register.Now.DeviceIds);
        Assert.Equal("Laboratory", register.Now.Device(Mic201)!.Place);

        // What stood on it was taken back: then the rest can go.
        Assert.False(register.Do((r, s) => ImportTakeBack.TakeBack(r, s, imports[0], null)));
        var moved = register.Facts.Last(f => f.Body is DeviceMoved { Place: "Laboratory" }).Id.ToString();
        Assert.True(register.Do((r, s) => CorrectionDecisions.Annul(r, s, moved, "no")));
        Assert.True(register.Do((r, s) => ImportTakeBack.TakeBack(r, s, imports[0], null)));
        Assert.DoesNotContain(Mic201, register.Now.DeviceIds);
        // Both acts are known: the list brings all of it back.
        register.Import(Fleet);
        Assert.Equal(("A-12", "A-12"), (register.Now.Device(Mic201)!.Model, register.Now.Device(Mic202)!.Model));
    }

    [Fact]
    public void A_campaign_that_stays_keeps_its_profile_and_the_devices_of_its_chains()
    {
        var register = new ImportedRegister();
        register.Import(Base);
        var (imports, _) = register.Import(Fleet, Rules, Campaign, Stations);
        Assert.Equal(4, imports.Count);
        Assert.True(register.Do((r, s) => CampaignDecisions.PlanStation(
            r, s, "TRIAL-1", r.Campaign("TRIAL-1")!.Stations["S1"] with { Station = "S2" })));

        // Each of the four lists was built upon by the next, and by the station.
        Assert.NotNull(ImportTakeBack.Plan(register.Now, imports[3])!.Why);
        Assert.NotNull(ImportTakeBack.Plan(register.Now, imports[2])!.Why);
        Assert.NotNull(ImportTakeBack.Plan(register.Now, imports[1])!.Why);
        var fleet = ImportTakeBack.Plan(register.Now, imports[0])!;
        Assert.Contains(fleet.Goes, f => f.Subjects[0] == Subject.Device(Mic202));
        Assert.Contains(fleet.Stays, s => s.Fact.Subjects[0] == Subject.Device(Mic201));
    }

    [Fact]
    public void What_stays_of_a_file_keeps_what_it_names()
    {
        var register = new ImportedRegister();
        register.Import(Base);
        var import = register.ImportAsOne(Fleet, Rules, Campaign, Stations);
        Assert.True(register.Do((r, s) => CampaignDecisions.PlanStation(
            r, s, "TRIAL-1", r.Campaign("TRIAL-1")!.Stations["S1"] with { Station = "S2" })));

        Assert.True(register.Do((r, s) => ImportTakeBack.TakeBack(r, s, import, null)));

        Assert.Equal("microphone", register.Now.Device(Mic201)!.Kind);
        Assert.Contains("our-own", register.Now.ProfileIds);
        Assert.Single(register.Now.Campaign("TRIAL-1")!.Chains);
        Assert.DoesNotContain(Mic202, register.Now.DeviceIds);
    }

    [Fact]
    public void What_was_annulled_because_of_an_import_keeps_it()
    {
        var register = new ImportedRegister();
        register.Import(Base);
        var (imports, _) = register.Import(Fleet);
        var place = register.Facts.First(f => f.Body is DeviceMoved { Place: "Hall 1" } && f.Subjects[0] == Subject.Device(Mic101));
        Assert.True(register.Do((r, s) => CorrectionDecisions.Annul(r, s, place.Id.ToString(), "it never was there")));

        Assert.True(register.Do((r, s) => ImportTakeBack.TakeBack(r, s, imports[0], null)));

        Assert.Equal("Van", register.Now.Device(Mic101)!.Place);
    }

    [Fact]
    public void Letting_an_import_count_again_leaves_what_a_person_annulled()
    {
        var register = new ImportedRegister();
        var (imports, _) = register.Import(Fleet);
        var note = register.Facts.First(f => f.Body is DeviceNoted { Text: "new" }).Id.ToString();
        Assert.True(register.Do((r, s) => CorrectionDecisions.Annul(r, s, note, "it is not")));
        var before = register.Answers();
        Assert.True(register.Do((r, s) => ImportTakeBack.TakeBack(r, s, imports[0], null)));

        Assert.True(register.Do((r, s) => ImportTakeBack.Undo(r, s, imports[0])));

        Assert.Equal(before, register.Answers());
    }

    [Fact]
    public void A_profile_that_a_later_campaign_names_stays()
    {
        var register = new ImportedRegister();
        var (imports, _) = register.Import(Rules);
        Assert.Null(ImportTakeBack.Plan(register.Now, imports[0])!.Why);
        register.Import(Campaign);

        Assert.Equal("Somebody built upon all that it brought.", ImportTakeBack.Plan(register.Now, imports[0])!.Why);
    }

    [Fact]
    public void Lists_of_one_act_are_told_apart_and_the_last_goes_first()
    {
        var register = new ImportedRegister();
        var (imports, _) = register.Import(Base, "Serial,Note\n101,bent\n");
        var first = ImportTakeBack.Plan(register.Now, imports[0])!;

        Assert.Contains(first.Stays, s => s.Fact.Subjects[0] == Subject.Device(Mic101));
        Assert.True(register.Do((r, s) => ImportTakeBack.TakeBack(r, s, imports[1], null)));
        Assert.Empty(ImportTakeBack.Plan(register.Now, imports[0])!.Stays);
    }

    [Fact]
    public void Where_the_facts_before_it_are_others_nothing_is_offered()
    {
        var register = new ImportedRegister();
        var (imports, _) = register.Import(Fleet);
        // As in a register that got them in another order.
        var other = new ImportedRegister([register.Facts[^1], .. register.Facts.SkipLast(1)]);
        var swapped = new ImportedRegister([register.Facts[1], register.Facts[0], .. register.Facts.Skip(2)]);
        var less = new ImportedRegister([.. register.Facts.Skip(1)]);

        Assert.Null(ImportTakeBack.Plan(swapped.Now, imports[0])!.Why);
        // As many, but not the same.
        var note = FactText.WriteDerived(register.Say().Stamp, new DeviceNoted("x"), [Subject.Device(Mic101)]);
        var mixed = new ImportedRegister([.. register.Facts.Take(2), note, .. register.Facts.Skip(3)]);
        foreach (var wrong in new[] { other, less, mixed })
        {
            var plan = ImportTakeBack.Plan(wrong.Now, imports[0])!;
            Assert.Contains("cannot be told which ones it brought", plan.Why, StringComparison.Ordinal);
            Assert.False(wrong.Do((r, s) => ImportTakeBack.TakeBack(r, s, imports[0], null)));
        }
        Assert.Null(ImportTakeBack.Plan(register.Now, "nothing"));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Nothing_that_others_built_upon_is_lost(int start)
    {
        for (var seed = start * 1000; seed < (start * 1000) + 40; seed++)
        {
            var random = new Random(seed);
            var register = new ImportedRegister();
            register.Import(Base);
            if (random.Next(2) == 0) register.Do((r, s) => DeviceDecisions.Note(r, s, Mic101, "before"));
            var before = register.Answers();
            var (imports, _) = register.Import(random.Next(2) == 0 ? [Fleet] : [Fleet, Rules, Campaign, Stations]);
            var import = imports[random.Next(imports.Count)];
            var touched = new HashSet<string>(StringComparer.Ordinal);
            var acts = random.Next(5);
            for (var i = 0; i < acts; i++) Act(register, random, touched);
            var told = register.Answers();

            var isTaken = register.Do((r, s) => ImportTakeBack.TakeBack(r, s, import, null));

            var now = register.Answers();
            foreach (var subject in Kept(register.Now, touched))
            {
                var (was, stands) = (told.GetValueOrDefault(subject), now.GetValueOrDefault(subject));
                Assert.True(was == stands, $"seed {seed}: {subject}\n{was}\n{stands}");
            }
            if (acts > 0 || imports.Count > 1) continue;
            Assert.True(isTaken, $"seed {seed}");
            Assert.Equal(before, now);
        }
    }

    // What a person does meanwhile; subjects that something now stands on are noted.
    private static void Act(ImportedRegister register, Random random, HashSet<string> touched)
    {
        var devices = register.Now.DeviceIds.ToList();
        var device = devices[random.Next(devices.Count)];
        var was = register.Facts.Count;
        switch (random.Next(7))
        {
            case 0: register.Do((r, s) => DeviceDecisions.Move(r, s, device, "Laboratory")); break;
            case 1: register.Do((r, s) => DeviceDecisions.ChangeStatus(r, s, device, DeviceStatus.Retired, "worn")); break;
            case 2: register.Do((r, s) => DeviceDecisions.Note(r, s, device, "looked at")); break;
            case 3:
                var row = $"{register.Now.Device(device)!.Serial},2025-04-0{random.Next(1, 9)},12.5 mV/Pa";
                register.Import($"Serial,Date,Sensitivity\n{row}\n");
                break;
            case 4 when register.Now.Campaign("TRIAL-1") is { Stations.Count: > 0 }:
                register.Do((r, s) => CampaignDecisions.PlanKit(r, s, "TRIAL-1", KitPurpose.Spare, [device]));
                break;
            case 5: register.Import(Campaign.Replace("Trial 1", "Trial 2", StringComparison.Ordinal)); break;
            default:
                // An annulment builds upon nothing.
                var counting = register.Facts.Where(f => f.Body is DeviceNoted or DeviceMoved)
                    .Where(f => register.Now.Counts(register.Now.Find(f.Id))).ToList();
                var target = counting[random.Next(counting.Count)];
                register.Do((r, s) => CorrectionDecisions.Annul(r, s, target.Id.ToString(), "no"));
                touched.RemoveWhere(s => target.Subjects.Contains(s) && target.Author == "ada");
                return;
        }
        foreach (var fact in register.Facts.Skip(was)) touched.UnionWith(fact.Subjects);
        touched.Remove(Subject.TheRegister);
    }

    // What stands is what was touched, and what that names.
    private static HashSet<string> Kept(Register.Register register, HashSet<string> touched)
    {
        var kept = new HashSet<string>(touched, StringComparer.Ordinal);
        foreach (var id in touched.Where(Subject.IsCampaign).Select(Subject.Id))
        {
            if (register.Campaign(id) is not { } campaign) continue;
            kept.UnionWith(campaign.Devices.Select(Subject.Device));
            if (campaign.Plan is { } plan) kept.Add(Subject.Profile(plan.Profile));
        }
        return kept;
    }
}
