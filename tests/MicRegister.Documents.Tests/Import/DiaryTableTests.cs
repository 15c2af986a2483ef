using MicRegister.Documents.Import;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.InPlace;

namespace MicRegister.Documents.Tests.Import;

/// <summary>How tables of what was done outdoors are known and read, whichever way people wrote them.</summary>
public sealed class DiaryTableTests
{
    // The campaign without what was done outdoors in it.
    private static readonly Register.Register Planned = PastCampaign.Imported(null, PastCampaign.Files.Take(4)).Register;
    private static readonly Register.Register Placed = PastCampaign.Imported(Planned,
        PastCampaign.Files.Where(f => f.Name == "placements.csv")).Register;

    [Theory]
    [InlineData("Station,Time,Microphone", "placements")]
    [InlineData("Station;Date et heure;Micro;Voie", "placements")]
    [InlineData("Estación;Fecha hora;Acción", "placements")]
    [InlineData("Stazione;Data ora;Microfono", "placements")]
    [InlineData("Meetpunt;Tijdstip;Microfoon", "placements")]
    [InlineData("Messpunkt;Zeitpunkt;Kalibrator;Anzeige [dB];Wann", "checks with a calibrator")]
    [InlineData("Station;Heure;Calibreur;Lecture avant [dB];Lecture après [dB]", "checks with a calibrator")]
    [InlineData("Time (UTC),Wind [m/s],Temperature [°C]", "weather")]
    [InlineData("Zeitstempel;Luftfeuchte [%];Luftdruck [hPa]", "weather")]
    [InlineData("Messpunkt;Breite;Länge;Lageunsicherheit [m]", "surveyed stations")]
    [InlineData("Ereignis;Beginn;Ende;Art", "events")]
    [InlineData("Evento;Inicio;Fin;Tipo", "events")]
    [InlineData("Aufnahmegerät;Zeitskala;Angezeigt;Wahre Zeit", "recorder clocks")]
    [InlineData("Station,Time,Level dB,Sound source", "comparisons in place")]
    public void A_table_is_known_by_its_columns(string header, string sort)
    {
        var cells = header.Split(header.Contains(';', StringComparison.Ordinal) ? ';' : ',');
        var (_, reports, _) = PastCampaign.Imported(Planned,
            ("one.csv", header + "\n" + string.Join(header.Contains(';', StringComparison.Ordinal) ? ';' : ',', cells.Select(_ => "x"))
            + "\n"));

        Assert.Contains(reports[0].Notices, n => n.EndsWith($"a table of {sort}.", StringComparison.Ordinal));
        Assert.All(reports[0].Understood, u => Assert.Equal("by its header", u.Certainty));
    }

    [Theory]
    [InlineData("Serial,Date,Sensitivity [mV/Pa],Temperature [°C],Pressure [kPa]\n101,2025-04-01,12.5,23,101.3\n")]
    [InlineData("Station,Latitude,Longitude,Mount,Microphone,Date\nS1,53.001,10.001,flush,101,2025-05-01\n")]
    [InlineData("Kind,Serial,Calibrator class,Date,Result\nsound calibrator,501,1,2025-05-05,94.00 dB\n")]
    public void Lists_of_devices_and_stations_stay_what_they_are(string text)
    {
        var (_, reports, _) = PastCampaign.Imported(Planned, ("list.csv", text));

        Assert.DoesNotContain(reports[0].Notices, n => n.Contains("a table of", StringComparison.Ordinal));
    }

    [Fact]
    public void Rows_of_one_station_and_time_are_one_chain_and_wait_for_each_other()
    {
        const string good = "Station,Time,Serial\nS1,2025-06-03 07:00,101\nS1,2025-06-03 07:00,201\nS2,2025-06-03 07:05,102\n";
        var (register, _, facts) = PastCampaign.Imported(Planned, ("a.csv", good));
        Assert.Equal(2, facts);
        Assert.Equal([2, 1], ArrayDeployment.Of(register, PastCampaign.C).Placements.Select(p => p.Devices.Count));

        var (_, reports, one) = PastCampaign.Imported(Planned, ("a.csv", good.Replace("201", "999", StringComparison.Ordinal)));
        Assert.Equal([RowSort.Questioned, RowSort.Refused, RowSort.New], reports[0].Outcomes.Select(o => o.Sort));
        Assert.Contains("row 3 is of the same chain", reports[0].Outcomes[0].Text, StringComparison.Ordinal);
        Assert.Equal(1, one);
    }

    [Fact]
    public void A_row_may_hold_when_a_chain_was_placed_and_when_it_was_taken_in()
    {
        var (register, reports, facts) = PastCampaign.Imported(Planned, (
            "a.csv", "Station,Placed,Taken in,Microphone\nS1,2025-06-03 07:00,2025-06-03 19:00,101\nS2,2025-06-03 07:00,2025-06-03 06:00,102\n"));

        Assert.Equal(2, facts);
        var placement = Assert.Single(ArrayDeployment.Of(register, PastCampaign.C).Placements);
        Assert.Equal(12 * 3_600_000, placement.Until - placement.From);
        Assert.Equal((RowSort.Refused, true), (reports[0].Outcomes[1].Sort,
            reports[0].Outcomes[1].Text.Contains("not after it was placed", StringComparison.Ordinal)));
    }

    [Fact]
    public void Rows_are_taken_in_the_order_of_time_and_a_swap_may_name_the_new_part_alone()
    {
        var (register, _, facts) = PastCampaign.Imported(Planned, (
            "a.csv",
            "Station,Time,Action,Microphone,Preamplifier,Missing\nS1,2025-06-03 19:00,taken in,,,201\nS1,2025-06-03 12:00,swapped,105,,\nS1,2025-06-03 07:00,placed,101,201,\n"));

        Assert.Equal(3, facts);
        var deployment = ArrayDeployment.Of(register, PastCampaign.C);
        string Serial(string id) => register.Device(id)!.Serial!;
        Assert.Equal("101 105", $"{Serial(deployment.Placements[1].Said.Swap!.Out)} {Serial(deployment.Placements[1].Said.Swap!.In)}");
        Assert.Equal(["105"], deployment.TakenIn[0].Said.Devices.Select(Serial));
        Assert.Equal(["201"], deployment.TakenIn[0].Said.Missing.Select(Serial));
    }

    [Fact]
    public void Another_chain_at_the_same_time_and_place_is_refused_and_never_taken_for_the_newer()
    {
        var (_, reports, facts) = PastCampaign.Imported(Placed, ("a.csv", "Station,Time,Microphone\nS1,2025-06-03 07:00,105\n"));

        Assert.Contains("the register holds another chain", Assert.Single(reports[0].Outcomes).Text, StringComparison.Ordinal);
        Assert.Equal(0, facts);
    }

    [Theory]
    [InlineData("Station,Time,Moment,Calibrator,Reading\nS1,2025-06-03 08:00,before,501,94.0\n", "column reading",
        "\"Reading\" = reading [dB]", 94.0)]
    [InlineData("Station,Time,Moment,Calibrator,Reading\nS1,2025-06-03 08:00,before,501,12.4\n", "column reading",
        "\"Reading\" = reading [mV]", 0.0124)]
    [InlineData("Station,Time,Calibrator,Reading [dB]\nS1,2025-06-03 08:00,501,94.0\n", "moment", "moment := before", 94.0)]
    [InlineData("Station,Time,Moment,Calibrator,Reading [dB],Ground\nS1,2025-06-03 08:00,before,501,94.0,grass\n", "column ground",
        "\"Ground\" = noted", 94.0)]
    public void What_a_table_leaves_open_is_asked_and_the_answer_is_taken(string text, string key, string rule, double reading)
    {
        var (_, asked, none) = PastCampaign.Imported(Placed, ("a.csv", text));
        var question = Assert.Single(asked[0].Questions);
        Assert.Equal(key, question.Key);
        Assert.Contains(rule, question.Choices.Select(c => c.Rule));
        Assert.False(asked[0].IsGood);
        // What columns hold stops the file as a whole; of the row alone nothing is known.
        Assert.True(none == 0 || asked[0].AsksOfColumns);

        var (register, answered, _) = PastCampaign.Imported(Placed, rule, ("a.csv", text));
        Assert.True(answered[0].IsGood, string.Join(' ', answered[0].Outcomes));
        Assert.Equal(reading, Assert.Single(CheckBook.OfCampaign(register, PastCampaign.C)).Check.Readings[0], 1e-12);
    }

    [Fact]
    public void Several_insertions_stand_in_a_cell_or_in_columns()
    {
        var (register, _, _) = PastCampaign.Imported(Placed, (
            "a.csv", "Station,Time,Moment,Calibrator,Reading 1 [dB],Reading 2 [dB]\nS1,2025-06-03 08:00,before,501,94.0,94.1\nS2,2025-06-03 08:00,before,501,93.9 / 94.0,94.2\n"));

        Assert.Equal(["94 94.1", "93.9 94 94.2"], CheckBook.OfCampaign(register, PastCampaign.C)
            .Select(c => string.Join(' ', c.Check.Readings.Select(r => r.ToString(System.Globalization.CultureInfo.InvariantCulture))))
                .OrderByDescending(r => r.Length == 7));
    }

    [Fact]
    public void Where_a_calibrator_follows_static_pressure_it_is_asked_for_and_never_made_up()
    {
        var (placed, _, _) = PastCampaign.Imported(Placed, ("k.csv", "Kind,Serial,Pressure law\nsound calibrator,501,adiabatic\n"));
        const string text = "Station,Time,Moment,Calibrator,Reading [dB],Pressure [hPa]\nS1,2025-06-03 08:00,before,501,94.0,1013.25\nS2,2025-06-03 08:00,before,501,94.0,\n";

        var (read, reports, one) = PastCampaign.Imported(placed, ("a.csv", text));
        Assert.Equal("missing-pressure", Assert.Single(reports[0].Questions).Key);
        Assert.Equal(1, one);
        Assert.Equal(101.325, Assert.Single(CheckBook.OfCampaign(read, PastCampaign.C)).Check.Air!.PressureKPa);

        var (estimated, _, _) = PastCampaign.Imported(placed, "missing-pressure := estimate", ("a.csv", text));
        Assert.Equal([false, true], CheckBook.OfCampaign(estimated, PastCampaign.C).Select(c => c.Check.PressureIsEstimated).Order());
    }

    [Fact]
    public void A_unit_that_weather_lacks_is_asked()
    {
        const string text = "Time,Wind\n2025-06-03 10:00,18\n";
        var (_, asked, none) = PastCampaign.Imported(Planned, ("a.csv", text));
        Assert.Equal(["\"Wind\" = wind [m/s]", "\"Wind\" = wind [km/h]", "\"Wind\" = wind [kt]", "\"Wind\" = wind [mph]"],
            Assert.Single(asked[0].Questions).Choices.Select(c => c.Rule));
        Assert.Equal(0, none);

        // 18 km/h are 5 m/s.
        var (register, _, _) = PastCampaign.Imported(Planned, "\"Wind\" = wind [km/h]", ("a.csv", text));
        Assert.Equal(5, Assert.Single(WeatherLog.Of(register, PastCampaign.C).Samples).Said.WindMs!.Value, 1e-9);
    }

    [Fact]
    public void A_comparison_is_taken_whole()
    {
        var (register, _, _) = PastCampaign.Imported(Planned,
            ("stations.csv", "Station,Latitude,Longitude,Mount\nS5,53.005,10.001,flush\n"),
            ("placements.csv", "Station,Time,Microphone\n"
                + string.Concat(Enumerable.Range(1, 5).Select(i => $"S{i},2025-06-03 07:0{i},10{i}\n"))));
        var text = "Station,Time,Level [dB],Expected [dB],Sound source,Frequency [Hz]\n"
            + string.Concat(Enumerable.Range(1, 5).Select(i => $"S{i},2025-06-03 09:00,7{i}.0,{i}.0,a loudspeaker,250\n"));

        var (after, reports, facts) = PastCampaign.Imported(register, ("c.csv", text));

        Assert.Equal((1, true), (facts, reports[0].IsGood));
        var comparison = Assert.Single(ComparisonBook.OfCampaign(after, PastCampaign.C));
        // 71 - 1, 72 - 2 and so on: all alike.
        Assert.All(Enumerable.Range(0, 5), i => Assert.Equal(0, comparison.OwnDb(i), 1e-9));
        Assert.Equal(0, PastCampaign.Imported(after, ("c.csv", text)).Facts);
        var (_, bad, none) = PastCampaign.Imported(register, ("c.csv", text.Replace("73.0", "loud", StringComparison.Ordinal)));
        Assert.Equal(0, none);
        Assert.Equal([RowSort.Questioned, RowSort.Questioned, RowSort.Refused, RowSort.Questioned, RowSort.Questioned],
            bad[0].Outcomes.Select(o => o.Sort));
    }

    [Fact]
    public void Rows_put_aside_can_be_mended_and_taken()
    {
        var (register, reports, _) = PastCampaign.Imported(Planned,
            ("a.csv", "Station,Time,Microphone\nS1,2025-06-03 07:00,101\nS2,2025-06-03 07:05,999\n"));
        using var mend = new StringWriter();
        Assert.Equal(1, MendFile.Write(reports[0], 0, mend));

        var (_, mended, facts) = PastCampaign.Imported(register,
            ("a.csv.mend.csv", mend.ToString().Replace(",999,", ",102,", StringComparison.Ordinal)));

        Assert.True(mended[0].IsGood, string.Join(' ', mended[0].Outcomes));
        Assert.Equal(1, facts);
    }
}
