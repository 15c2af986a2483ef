using MicRegister.Documents.Import;

namespace MicRegister.Documents.Tests.Import;

/// <summary>What a row would do is told field by field, and what a column was taken for with how that is known.</summary>
public sealed class PlannedRowsTests
{
    private const string Devices = "Kind,Model,Serial,Location,Status,Owner,Date,Sensitivity [mV/Pa]\nmic,A,1,Hall 1,in service,Ada,2025-01-01,12.5\n";

    [Fact]
    public void A_device_tells_each_field_that_changes_and_what_is_added()
    {
        var register = new ImportedRegister();
        register.Import(Devices);
        var outcome = register.Import("Kind,Serial,Location,Status,Owner,Date,Sensitivity [mV/Pa]\nmic,1,Van,away,Ben,2026-02-01,12.6\n").Report.Outcomes[0];

        Assert.Equal((RowSort.Changed, "Microphone", "Microphone 1"), (outcome.Sort, outcome.About, outcome.Name));
        Assert.Equal(
            [new("Owner", "Ada", "Ben"), new("Place", "Hall 1", "Van"), new("State of use", "in service", "away")], outcome.Changes);
        Assert.Equal(["result of 2026-02-01"], outcome.Beside);
    }

    [Fact]
    public void What_is_new_changes_nothing()
    {
        var outcome = new ImportedRegister().Import(Devices).Report.Outcomes[0];

        Assert.Equal((RowSort.New, "Microphone", (string?)null), (outcome.Sort, outcome.About, outcome.Name));
        Assert.Empty(outcome.Changes);
    }

    [Fact]
    public void Campaigns_stations_and_settings_tell_it_too()
    {
        const string Campaign = "Campaign,First day,Last day,Time zone,UTC offset,Site,Altitude,Source,Band from,Band to,Profile\n"
            + "Heron,2027-05-03,{0},UTC,0,Heronfield,{1},propeller,50,10000,engineering-practice\n";
        const string Station = "Campaign,Station,Latitude,Longitude,Mount\nHeron,S1,{0},1.2,{1}\n";
        var register = new ImportedRegister();
        register.Import(Campaign.Replace("{0}", "2027-05-14", StringComparison.Ordinal).Replace("{1}", "120", StringComparison.Ordinal),
            Station.Replace("{0}", "52.1", StringComparison.Ordinal).Replace("{1}", "flush plate", StringComparison.Ordinal));

        var campaign = register.Import(Campaign.Replace("{0}", "2027-05-15", StringComparison.Ordinal)
            .Replace("{1}", "121", StringComparison.Ordinal)).Report.Outcomes[0];
        Assert.Equal("Campaign", campaign.About);
        Assert.Equal([new("Last day", "2027-05-14", "2027-05-15"), new("Altitude, m", "120", "121")], campaign.Changes);
        var station = register.Import(Station.Replace("{0}", "52.2", StringComparison.Ordinal)
            .Replace("{1}", "pole", StringComparison.Ordinal)).Report.Outcomes[0];
        Assert.Equal("Station", station.About);
        Assert.Equal(["Latitude, °: 52.1 → 52.2", "Mount"],
            station.Changes.Select((c, i) => i == 0 ? $"{c.Field}: {c.Before} → {c.After}" : c.Field));
        register.Import("Setting,Value\nswap-days,9\n");
        var setting = register.Import("Setting,Value\nswap-days,11\n").Report.Outcomes[0];
        Assert.Equal(("Setting", new FieldChange("swap-days", "9", "11")), (setting.About, setting.Changes.Single()));
    }

    [Fact]
    public void Columns_say_how_they_are_known()
    {
        var mapping = ImportMapping.Read(new StringReader("\"Key box\" = left-out\nColour = noted\nTag = inventory-code\n"), "legend");
        var report = new ImportSession(new ImportedRegister().Now, ImportedRegister.Today).Take(
            new MemoryStream("Kind,Model,Serial,Key box,Colour,Tag,Xyzzy,Plugh,Price\nmic,A,1,7,red,T1,,foo,12\n"u8.ToArray()), "x.csv",
                mapping);

        Assert.Equal(
            [
                "Kind: by its header, Sure", "Model: by its header, Sure", "Serial: by its header, Sure",
                    "Key box: said by the legend, LeftOut",
                "Colour: said by the legend, Said", "Tag: said by the legend, Said", "Xyzzy: nothing stands below it, LeftOut",
                    "Plugh: asked, Asked",
                "Price: of no use here, LeftOut",
            ],
            report.Understood.Select(c => $"{c.Header}: {c.Certainty}, {c.Sort}"));
    }

    [Fact]
    public void A_header_that_stands_twice_is_not_called_asked()
    {
        var report = new ImportSession(new ImportedRegister().Now, ImportedRegister.Today).Take(
            new MemoryStream("Kind,Model,Serial,Serial\nmic,A,1,2\n"u8.ToArray()), "x.csv", ImportMapping.None);

        Assert.Equal("its header stands twice", report.Understood.Last().Certainty);
    }

    [Fact]
    public void A_plan_is_the_same_whatever_else_the_register_counts_and_another_where_a_row_does_something_else()
    {
        var register = new ImportedRegister();
        register.Import(Devices);
        const string Moved = "Kind,Serial,Location\nmic,1,Van\n";
        var (first, ids) = Plan(register, Moved);
        register.Import("Kind,Model,Serial\nmic,A,2\n");
        var (same, others) = Plan(register, Moved);

        Assert.NotEqual(ids, others); // the change counts on from the register's size
        Assert.Equal(first, same);
        register.Import("Kind,Serial,Location\nmic,1,Bench\n");
        Assert.NotEqual(first, Plan(register, Moved).Digest);
    }

    [Fact]
    public void A_file_is_known_again_by_its_headers_in_any_order_and_not_by_others()
    {
        var mapping = ImportMapping.Read(new StringReader("Gattung = kind\nNr = serial\n"), "legend");
        var report = new ImportSession(new ImportedRegister().Now, ImportedRegister.Today).Take(
            new MemoryStream("Gattung,Nr.\nmic,1\n"u8.ToArray()), "x.csv", mapping);

        Assert.True(Shapes("a title\nNR;GATTUNG\n2;mic\n").Contains(report.Shape.Single()));
        Assert.False(Shapes("NR;GATTUNG;Ort\n2;mic;x\n").Contains(report.Shape.Single()));

        static IReadOnlySet<string> Shapes(string text) =>
            TableShape.InFile(new MemoryStream(System.Text.Encoding.UTF8.GetBytes(text)), "y.csv");
    }

    private static (string Digest, string Ids) Plan(ImportedRegister register, string list)
    {
        var session = new ImportSession(register.Now, ImportedRegister.Today);
        var report = session.Take(
            new MemoryStream(System.Text.Encoding.UTF8.GetBytes(list)), "x.csv", ImportMapping.None with { AsOf = ImportedRegister.Today });
        return (PlanDigest.Of(session.Facts, [report]), string.Join(' ', session.Facts.Select(f => f.Id)));
    }
}
