using System.Text;
using MicRegister.Documents.Import;
using MicRegister.Register;

namespace MicRegister.Documents.Tests.Import;

/// <summary>
/// An invented campaign of the year before, as it was typed up: four stations, two days, two hours ahead of UTC. At S2 the microphone was
/// swapped at noon, at S3 nobody wrote an evening's reading down, at S4 a deviation alone, and S4 was taken in after the first day.
/// </summary>
internal static class PastCampaign
{
    public const string C = "MARSH-25";

    public static DateOnly Today { get; } = new(2026, 6, 1);

    /// <summary>Each file with its name, in the order in which they can be taken one by one.</summary>
    public static IReadOnlyList<(string Name, string Text)> Files { get; } =
    [
        ("rules.csv", "Profile,Limit,Value,Source\nmarsh-rules,check-deviation-db,0.3,invented\nmarsh-rules,check-difference-db,0.3,invented\n"),
        ("fleet.csv", Fleet()),
        ("campaign.csv",
            "Campaign,First day,Last day,Time zone,UTC offset,Altitude [m],Source,Band from [Hz],Band to [Hz],Profile\n"
            + "Marsh 25,2025-06-03,2025-06-04,Zone/Marsh,+02:00,20,propeller,20,10000,marsh-rules\n"),
        ("stations.csv",
            "Station,Latitude,Longitude,Mount\nS1,53.001,10.001,flush\nS2,53.002,10.001,flush\nS3,53.003,10.001,flush\nS4,53.004,10.001,flush\n"),
        ("placements.csv", Placements),
        ("checks.csv", Checks),
        ("weather.csv",
            "Zeit;Wind [m/s];Temperatur [°C];Luftdruck [hPa];Akku [V]\n"
            + "03.06.2025 09:50;2,5;18,5;1008,0;12,6\n03.06.2025 13:20;3,0;21,0;1007,0;12,5\n04.06.2025 09:50;1,0;17,0;1010,0;12,4\n"),
        ("survey.csv", "Station,Latitude,Longitude,Horizontal uncertainty [m],Method\nS1,53.00101,10.00101,0.02,total station\n"),
        ("clocks.csv",
            "Recorder,Clock set to,Shown,True time,Uncertainty [s],Against\n"
            + "REC-A,local,2025-06-03 07:00:02,2025-06-03 07:00:00,0.5,a radio clock\nREC-A,local,2025-06-03 19:00:04,2025-06-03 19:00:00,0.5,a radio clock\n"),
        ("events.csv",
            "Event,Start,End,Kind,Aircraft\nRun 1,2025-06-03 10:00:00,10:01:00,fly-over,AC-1\nRun 2,2025-06-03 13:30:00,13:31:00,Überflug,AC-1\n"
            + "Run 3,2025-06-04 10:00:00,10:01:00,ambient,\n"),
    ];

    /// <summary>Days with dots, the chain by columns, the swap by what went out and in.</summary>
    public const string Placements =
        "Datum;Uhrzeit;Aktion;Station;Mikrofon;Vorverstärker;Kanal;Ausgebaut;Eingebaut;Grund;Wer\n"
        + "3.6.2025;07:00;aufgebaut;S1;101;201;301;;;;Ada\n3.6.2025;07:05;aufgebaut;S2;102;202;302;;;;Ada\n"
        + "3.6.2025;07:10;aufgebaut;S3;103;203;303;;;;Ben\n3.6.2025;07:15;aufgebaut;S4;104;204;304;;;;Ben\n"
        + "3.6.2025;12:00;getauscht;S2;;;;102;105;knistert;Ada\n3.6.2025;19:00;abgebaut;S4;;;;;;;Ben\n4.6.2025;19:00;abgebaut;S1;;;;;;;Ada\n";

    /// <summary>A reading before and one after in a row, which is how people write it; levels as the chains indicated them.</summary>
    public const string Checks =
        "Station,Date,Calibrator,Time before,Before [dB],Time after,After [dB],Deviation [dB],Moment,Time,Remark\n"
        + "S1,2025-06-03,501,07:40,94.02,18:00,93.98,,,,\nS2,2025-06-03,501,07:45,94.05,11:50,94.04,,,,the old capsule\n"
        + "S2,2025-06-03,501,12:10,93.97,18:05,93.96,,,,the new capsule\nS3,2025-06-03,501,07:50,94.01,,,,,,\n"
        + "S4,2025-06-03,501,07:55,94.03,,,,,,\nS4,2025-06-03,501,,,,,0.05,after,18:15,the reading was not written down\n"
        + "S1,2025-06-04,501,07:40,94.02,18:00,94.00,,,,\nS2,2025-06-04,501,07:45,93.97,18:05,93.99,,,,\n"
        + "S3,2025-06-04,501,07:50,94.01,18:10,94.00,,,,\n";

    /// <summary>Takes files over as the import does, all in one act.</summary>
    public static (Register.Register Register, IReadOnlyList<FileReport> Reports, int Facts) Imported(
        Register.Register? into, params IEnumerable<(string Name, string Text)> files) => Imported(into, "", files);

    public static (Register.Register Register, IReadOnlyList<FileReport> Reports, int Facts) Imported(
        Register.Register? into, string rules, params IEnumerable<(string Name, string Text)> files)
    {
        var register = into ?? FactList.RegisterOf([]);
        var session = new ImportSession(register, Today);
        List<FileReport> reports = [.. files.Select(f => session.Read(
            new MemoryStream(Encoding.UTF8.GetBytes(f.Text)), f.Name, ImportMapping.Read(new StringReader(rules), "rules")))];
        session.Finish();
        List<Register.Facts.Fact> all = [.. Enumerable.Range(1, register.Count).Select(register.Source.Read), .. session.Facts];
        return (FactList.RegisterOf(all), reports, session.Facts.Count);
    }

    // -38.06 dB and -0.1 dB of gain: what the chain is set to. 94.00 dB is what the calibrator gives.
    private static string Fleet()
    {
        var text = new StringBuilder("Kind,Model,Serial,Response,Highest frequency [Hz],Quantity,Date,Result,U [dB],k,Lab\n");
        for (var i = 1; i <= 5; i++)
        {
            text.Append(System.Globalization.CultureInfo.InvariantCulture,
                $"microphone,A-12,10{i},pressure,40000,sensitivity,2025-03-01,-38.06 dB re 1 V/Pa,0.06,2,House\n");
            if (i == 5) break;
            text.Append(System.Globalization.CultureInfo.InvariantCulture,
                $"preamplifier,B-7,20{i},,,gain,2025-02-01,-0.1 dB,0.04,2,House\n");
            text.Append(System.Globalization.CultureInfo.InvariantCulture,
                $"recorder channel,C-4,30{i},,,gain,2025-02-01,0.003 dB,0.04,2,House\n");
        }
        return text.Append("sound calibrator,D-1,501,,,level,2025-01-05,94.00 dB,0.1,2,House\n").ToString();
    }
}
