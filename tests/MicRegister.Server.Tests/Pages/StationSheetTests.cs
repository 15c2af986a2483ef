using MicRegister.Documents.Import;
using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Labels;
using MicRegister.Server.Pages.Campaigns;
using MicRegister.Server.Work;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Server.Tests.Pages;

/// <summary>The plan as a sheet: what is typed or pasted, what cannot be so, what is taken back and what is stored.</summary>
public sealed class StationSheetTests : IAsyncLifetime
{
    private readonly TemporaryFolder _folder = new();
    private readonly StationSheet _sheet = new();
    private LiveRegister _live = null!;
    private int _counter;

    public async ValueTask InitializeAsync()
    {
        _live = new(JournalStore.Open(new DiskFiles(_folder.Path), TimeProvider.System));
        var plan = new CampaignPlanned(
            "One", new(2026, 9, 1), new(2026, 9, 9), "UTC", [new("2026-01-01T00:00:00.000Z", 0)], "Heath", 100, SourceClass.Propeller,
            50, 10_000, null, null, BuiltInProfiles.Usual, 0, null);
        await _live.Submit(
        [
            Said(plan, "campaign:C1"), Said(plan with { Name = "Earlier" }, "campaign:C0"),
            Said(new StationPlanned("S1", 53.1, 8.2, Mount.FlushPlate, null), "campaign:C1"),
            Said(new StationPlanned("S2", 53.2, 8.3, Mount.Pole, 10), "campaign:C1"),
            Said(new StationPlanned("S1", 50, 7, Mount.Pole, 4), "campaign:C0"),
            Said(new StationPlanned("E1", 50.5, 7.5, Mount.GroundStand, 1.2), "campaign:C0"),
            Registered("M1", "microphone", "41001"), Registered("M2", "microphone", "41002"), Registered("P1", "preamplifier", "41002"),
            Registered("G1", "ground-plate", "GP 1"), Registered("X1", "microphone", "A+B"),
            Said(new ChainPlanned("S1", ["M1"]), "campaign:C1", "device:M1"), Said(new ChainPlanned("E1", ["M2"]), "campaign:C0", "device:M2"),
        ], "test");
        Follow();
    }

    public async ValueTask DisposeAsync()
    {
        await _live.DisposeAsync();
        _folder.Dispose();
    }

    [Fact]
    public void It_shows_what_stands_there_and_an_empty_line()
    {
        Assert.Equal(
            ["S1|53.1|8.2|flush plate||41001", "S2|53.2|8.3|pole|10|", "|||||"],
            _sheet.Lines.Select(l => string.Join('|', l.Cells.Select(c => c.Text))));
        Assert.True(_sheet.Lines[0].Cells[0].IsFixed);
        Assert.False(_sheet.Lines[2].Cells[0].IsFixed);
        Assert.Empty(_sheet.Unsaid);
    }

    [Fact]
    public void A_block_of_forty_stations_is_taken_at_once_and_stored_as_one_act()
    {
        var block = "Messpunkt\tBreitengrad\tLängengrad\tAufstellung\tHöhe über Grund\tMikrofon\tBodenplatte\tBemerkung\n"
            + string.Join('\n', Enumerable.Range(1, 40).Select(i => $"N{i:00}\t53,{i:000}\t8,{i:000}\tflush\t\t{(i == 1 ? "41002" : "")}\t{(i == 1 ? "GP 1" : "")}\tx"));

        var said = _sheet.Take(_live.Now, new(Last, 0, block));

        Assert.Equal("Left out, since no column of stations is meant: 'Bemerkung'.", said);
        Assert.Equal("2 devices are called '41002': write the kind before it, as in 'microphone 41002' or 'preamplifier 41002'.", Line("N01").Wrong[5]);
        Type("N01", StationCell.Chain, "microphone 41002 + GP 1");
        Assert.Equal((40, 0), (_sheet.Unsaid.Count(), _sheet.WrongCells));
        var facts = Decide();
        Assert.Equal(41, facts.Count); // 40 places and one chain
        var then = _live.Now.WhatIf(facts).Campaign("C1")!;
        Assert.Equal((42, 53.04, 8.04), (then.Stations.Count, then.Stations["N40"].LatitudeDeg, then.Stations["N40"].LongitudeDeg));
        Assert.Equal(["M2", "G1"], then.Chains["N01"]);

        _sheet.Undo(_live.Now);
        _sheet.Undo(_live.Now);
        Assert.Empty(_sheet.Unsaid);
    }

    [Theory]
    [InlineData("53.5\n\n53.7", 1, "53.5,,53.7")] // a blank row keeps its place
    [InlineData("53,5\n53,6\n53,7", 1, "53,5,53,6,53,7")] // a decimal comma parts nothing
    [InlineData("A1,53.5,8\nA2,53.6,8\nA3,53.7,8", 0, "53.5,53.6,53.7")]
    [InlineData("A1;53,5;8\nA2;53,6;8\nA3;53,7;8\n\n", 0, "53,5,53,6,53,7")]
    [InlineData("\"A\t1\"\t53.5\nA2\t53.6", 0, "53.5,53.6")]
    public void Rows_stay_beside_each_other(string block, int column, string latitudes)
    {
        if (column > 0) _sheet.Take(_live.Now, new(Last, 0, "A1\nA2\nA3"));
        var first = _sheet.Lines[2].Key;

        Assert.Null(_sheet.Take(_live.Now, new(first, column, block)));

        Assert.Equal(latitudes, string.Join(',', _sheet.All.Skip(2).Where(l => l.Name.Length > 0).Select(l => l.Texts[1])));
    }

    [Fact]
    public void A_block_that_names_stations_changes_those_and_adds_the_others()
    {
        _sheet.Take(_live.Now, new(Last, 0, "station\tlat\nS2\t53.25\nN1\t54\nS1\t53.15\nS9"));

        Assert.Equal(("53.15", "53.25", "54"), (Line("S1").Texts[1], Line("S2").Texts[1], Line("N1").Texts[1]));
        Assert.Equal("8.2", Line("S1").Texts[2]); // what the block does not speak of stays
        Assert.Equal(4, _sheet.Unsaid.Count());
    }

    [Fact]
    public void A_block_over_lines_that_are_not_stored_is_taken_back_to_what_stood_there()
    {
        _sheet.Take(_live.Now, new(Last, 0, "X01\t38,2001\t-30,5\tpole"));
        _sheet.Take(_live.Now, new(Last, 0, "Station\tLatitude\tHeight, m\nX01\t38,2002\t6"));
        Assert.Equal("X01|38,2002|-30,5|pole|6|", string.Join('|', Line("X01").Texts));

        _sheet.Undo(_live.Now);

        Assert.Equal("X01|38,2001|-30,5|pole||", string.Join('|', Line("X01").Texts));
    }

    [Fact]
    public void An_empty_cell_of_a_block_leaves_what_stands_there()
    {
        _sheet.Take(_live.Now, new(Last, 0, "Messpunkt\tBreite\tHalterung\tHöhe [m]\tKette\nS1\t53.15\t\t\t"));

        Assert.Equal("S1|53.15|8.2|flush plate||41001", string.Join('|', Line("S1").Texts));
    }

    [Fact]
    public void A_name_that_stands_twice_in_a_block_is_no_station()
    {
        var said = _sheet.Take(_live.Now, new(Last, 0, "X01\t53\nX02\t54\nX01\t55"));

        Assert.Contains("Station X01 stands twice in the block", said, StringComparison.Ordinal);
        Assert.Empty(_sheet.Unsaid);
    }

    [Fact]
    public async Task A_station_that_others_planned_meanwhile_is_never_half_theirs()
    {
        _sheet.Take(_live.Now, new(Last, 0, "P1\t38.2003\t9\tground stand"));

        await Meanwhile(Said(new StationPlanned("P1", 38.2002, 9, Mount.Pole, 6), "campaign:C1"));

        Assert.Equal("P1|38.2003|9|ground stand||", string.Join('|', Line("P1").Texts));
        Assert.Equal("others planned it meanwhile, otherwise", Line("P1").Note);
        Assert.Null(_live.Now.WhatIf(Decide()).Campaign("C1")!.Stations["P1"].HeightM);
    }

    [Fact]
    public void A_block_whose_cells_cannot_be_told_apart_is_refused_as_a_whole()
    {
        var said = _sheet.Take(_live.Now, new(Last, 0, "A1\t53\nA2 \"x\" y\t54\nA3\t55"));

        Assert.StartsWith("Line 2 of the block:", said, StringComparison.Ordinal);
        Assert.EndsWith("Nothing was taken.", said, StringComparison.Ordinal);
        Assert.Empty(_sheet.Unsaid);
    }

    [Theory]
    [InlineData(StationCell.Latitude, "90.1", "'90.1': allowed is a number from -90 to 90 °.")]
    [InlineData(StationCell.Latitude, "", "Missing: a number from -90 to 90 °.")]
    [InlineData(StationCell.Longitude, "-180,5", "'-180,5': allowed is a number from -180 to 180 °.")]
    [InlineData(StationCell.Longitude, "8 dB", "'8 dB': allowed is a number from -180 to 180 °.")]
    [InlineData(StationCell.Height, "51", "'51': allowed is a number from 0 to 50 m.")]
    [InlineData(StationCell.Mount, "tree", "'tree' is no mount: allowed are flush plate, inverted plate, ground stand, pole.")]
    [InlineData(StationCell.Mount, " ", "The mount is missing: allowed are flush plate, inverted plate, ground stand, pole.")]
    [InlineData(StationCell.Chain, "49999", "No device is called '49999': allowed are serials, labels and ids of the register.")]
    [InlineData(StationCell.Chain, "41001, 41001", "41001 stands twice in it.")]
    public void What_cannot_be_is_said_at_its_cell(StationCell cell, string text, string wrong)
    {
        Type("S2", cell, text);

        Assert.Equal(wrong, Line("S2").Wrong[(int)cell]);
        Assert.Equal(wrong, _sheet.Lines[1].Cells[(int)cell].Wrong);
        Assert.Equal(1, _sheet.WrongCells);
        Type("S2", cell, _sheet.All[1].Base[(int)cell]);
        Assert.Equal((0, 0), (_sheet.WrongCells, _sheet.Unsaid.Count()));
    }

    [Fact]
    public void Two_lines_of_one_name_and_a_name_too_long_are_said()
    {
        _sheet.Take(_live.Now, new(Last, 0, "N1"));
        _sheet.Take(_live.Now, new(Last, 0, "N1"));
        _sheet.Take(_live.Now, new(Last, 0, new string('x', 61)));

        Assert.All(_sheet.All.Where(l => l.Name == "N1"), l => Assert.Contains("each has a name of its own", l.Wrong[0], StringComparison.Ordinal));
        Assert.Contains("1 to 60 characters", _sheet.All[4].Wrong[0], StringComparison.Ordinal);
    }

    [Fact]
    public void A_device_at_two_stations_is_told_at_both()
    {
        Type("S2", StationCell.Chain, "41001");

        Assert.All(_sheet.Lines.Take(2), l => Assert.Contains("stands at S1 and S2", l.Cells[5].Told, StringComparison.Ordinal));
        Assert.Equal(0, _sheet.WrongCells); // told, not refused
        _sheet.TurnOut(_live.Now, _sheet.Lines[0].Key);
        Assert.All(_sheet.Lines, l => Assert.Null(l.Cells[5].Told));
    }

    [Fact]
    public async Task What_nobody_touched_follows_the_register_and_what_was_typed_stays()
    {
        Type("S1", StationCell.Latitude, "53,11");
        Type("S2", StationCell.Height, "9");
        _sheet.Take(_live.Now, new(Last, 0, "N1\t54\t9\tpole"));

        await Meanwhile(
            Said(new StationPlanned("S1", 53.1, 8.25, Mount.FlushPlate, null), "campaign:C1"),
            Said(new StationPlanned("A0", 53.0, 8.0, Mount.Pole, 4), "campaign:C1"),
            Said(new StationPlanned("N1", 54, 9, Mount.Pole, null), "campaign:C1"));

        Assert.Equal(["A0", "N1", "S1", "S2", ""], _sheet.All.Select(l => l.Name));
        Assert.Equal(("53,11", "8.25"), (Line("S1").Texts[1], Line("S1").Texts[2]));
        Assert.Equal(["S1", "S2"], _sheet.Unsaid.Select(l => l.Name)); // N1 says what others stored meanwhile
        await Meanwhile(Said(new StationPlanned("S1", 53.11, 8.25, Mount.FlushPlate, null), "campaign:C1"));
        Assert.Equal(("53.11", "9"), (Line("S1").Texts[1], Line("S2").Texts[4]));
        Assert.Equal(["S2"], _sheet.Unsaid.Select(l => l.Name)); // said in other words, it is the same
    }

    [Fact]
    public async Task A_station_that_others_took_out_keeps_what_was_typed_of_it()
    {
        Type("S2", StationCell.Height, "9");
        var facts = Assert.IsType<Result<IReadOnlyList<Fact>>.Accepted>(
            StationPlans.Plan(_live.Now, Saying(), "C1", [], ["S1", "S2"], "ploughed")).Value;

        await Meanwhile([.. facts]);

        var left = Assert.Single(_sheet.Unsaid);
        Assert.Equal(("S2", null, "taken out meanwhile; stored, it is there again"), (left.Name, left.Stored, left.Note));
        Assert.Equal(9, _live.Now.WhatIf(Decide()).Campaign("C1")!.Stations["S2"].HeightM);
    }

    [Fact]
    public void Stations_of_an_earlier_campaign_are_taken_with_or_without_their_chains()
    {
        var earlier = _live.Now.Campaign("C0")!;

        Assert.Equal(1, _sheet.Copy(_live.Now, earlier, withChains: true)); // S1 is here already
        Assert.Equal("E1|50.5|7.5|ground stand|1.2|microphone 41002", string.Join('|', Line("E1").Texts));
        Assert.Equal("53.1", Line("S1").Texts[1]);
        Assert.Equal(["M2"], _live.Now.WhatIf(Decide()).Campaign("C1")!.Chains["E1"]);

        _sheet.Undo(_live.Now);
        Assert.Empty(_sheet.Unsaid);
        _sheet.Copy(_live.Now, earlier, withChains: false);
        Assert.Equal("", Line("E1").Texts[5]);
    }

    [Fact]
    public void Every_act_is_taken_back_one_by_one()
    {
        var before = Texts();
        Type("S2", StationCell.Height, "9");
        _sheet.Take(_live.Now, new(Last, 0, "N1\t54\nN2\t55"));
        _sheet.Take(_live.Now, new(Line("N1").Key, 3, "pole"));
        Assert.Equal(1, _sheet.FillDown(_live.Now, Line("N1").Key, 3));
        Assert.Equal("pole", Line("N2").Texts[3]);
        _sheet.Join(_live.Now, Line("N1").Key, "M1");
        _sheet.Join(_live.Now, Line("N1").Key, "G1");
        Assert.Equal("41001 + GP 1", Line("N1").Texts[5]);
        _sheet.TurnOut(_live.Now, Line("S1").Key);
        _sheet.TurnOut(_live.Now, Line("N2").Key);
        Assert.DoesNotContain(_sheet.All, l => l.Name == "N2");
        _sheet.LeaveAll(_live.Now);
        Assert.Equal(before, Texts());
        _sheet.Undo(_live.Now);
        Assert.True(Line("S1").IsOut);

        for (var i = 0; i < 8; i++) _sheet.Undo(_live.Now);

        Assert.False(_sheet.CanUndo);
        Assert.Equal(before, Texts());
        Assert.Equal(3, _sheet.Lines.Count); // what was emptied is gone
        Assert.Empty(_sheet.Unsaid);
    }

    [Fact]
    public void What_was_not_stored_stands_there_again_after_a_reload()
    {
        Type("S2", StationCell.Height, "9");
        _sheet.Take(_live.Now, new(Last, 0, "N1\t54"));
        _sheet.TurnOut(_live.Now, Line("S1").Key);

        var again = new StationSheet();
        again.Follow(_live.Now, _live.Now.Campaign("C1")!);
        again.Restore(_live.Now, _sheet.Keep());

        Assert.Equal(Texts(), [.. again.All.Where(l => !l.IsEmpty).Select(l => string.Join('|', l.Texts))]);
        Assert.Equal(["S1", "S2", "N1"], again.Unsaid.Select(l => l.Name));
        Assert.True(again.All[0].IsOut);
    }

    [Fact]
    public void A_sheet_has_a_greatest_length_and_says_what_it_left()
    {
        var said = _sheet.Take(_live.Now, new(Last, 0, string.Join('\n', Enumerable.Range(1, StationSheet.MostLines).Select(i => $"N{i}\t53"))));

        Assert.Contains("2 rows were left out", said, StringComparison.Ordinal);
        Assert.Equal(StationSheet.MostLines, _sheet.All.Count);
    }

    [Fact]
    public void A_line_that_is_the_same_is_not_drawn_again()
    {
        var before = _sheet.Lines.ToList();
        Type("S2", StationCell.Height, "9");

        Assert.Same(before[0], _sheet.Lines[0]);
        Assert.NotSame(before[1], _sheet.Lines[1]);
    }

    [Fact]
    public async Task A_chain_is_read_by_serial_label_id_and_kind_and_what_is_written_is_read_back()
    {
        var code = LabelCode.Draw(n => [.. Enumerable.Repeat((byte)7, n)]);
        await Meanwhile(Said(new LabelBound(code.Text, null), "label:" + code.Text, "device:G1"));

        Assert.Equal(["M1", "G1"], Read($"41001\n{code.Text}"));
        Assert.Equal(["M1", "G1"], Read("M1; G1"));
        Assert.Equal(["M1", "P1", "M2"], Read("41001 + PREAMPLIFIER 41002 + Microphone  41002"));
        Assert.Equal(["M1", "G1"], Read("41001 G1")); // only what is no serial as a whole is several
        Assert.Equal(["G1"], Read("gp 1"));
        string[] all = ["M1", "M2", "P1", "G1", "X1"];
        Assert.Equal("41001 + microphone 41002 + preamplifier 41002 + GP 1 + X1", ChainText.Write(_live.Now, all));
        Assert.Equal(all, Read(ChainText.Write(_live.Now, all)));
        Assert.Equal([], Read(" + "));
    }

    [Fact]
    public void Words_of_mounts_that_go_out_are_read_back()
    {
        Assert.All(Enum.GetValues<Mount>(), m => Assert.Equal((m, m), (StationCells.MountOf(StationCells.MountWord(m)), StationCells.MountOf(m.InWords))));
        Assert.Null(StationCells.Heads(["N1", "53.1", "8.2"]));
        Assert.Null(StationCells.Heads([""]));
    }

    private string Last => _sheet.Lines[^1].Key;

    private StationLine Line(string name) => _sheet.All.Single(l => l.Name == name);

    private List<string> Texts() => [.. _sheet.All.Where(l => !l.IsEmpty).Select(l => string.Join('|', l.Texts))];

    private void Type(string station, StationCell cell, string text) => _sheet.Take(_live.Now, new(Line(station).Key, (int)cell, text));

    private IReadOnlyList<string> Read(string text)
    {
        var (ids, wrong) = ChainText.Read(_live.Now, text);
        Assert.Null(wrong);
        return ids;
    }

    private IReadOnlyList<Fact> Decide() =>
        Assert.IsType<Result<IReadOnlyList<Fact>>.Accepted>(_sheet.Decide(_live.Now, Saying(), "C1", "moved")).Value;

    private void Follow() => _sheet.Follow(_live.Now, _live.Now.Campaign("C1")!);

    private async Task Meanwhile(params Fact[] facts)
    {
        await _live.Submit(facts, "test");
        Follow();
    }

    private Saying Saying() => new(new(Occurred.On(new(2026, 8, 2)), "P3", "desk", ++_counter));

    private Fact Said(FactBody body, params string[] subjects) =>
        FactText.WriteDerived(new(Occurred.On(new(2026, 8, 1)), "P2", "desk", ++_counter), body, subjects);

    private Fact Registered(string id, string kind, string serial) =>
        Said(new DeviceRegistered(kind, "House", "A", serial, new(StringComparer.Ordinal)), "device:" + id);
}
