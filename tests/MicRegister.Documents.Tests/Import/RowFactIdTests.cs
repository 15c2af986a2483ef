using System.Text;
using MicRegister.Documents.Import;
using MicRegister.Register;
using MicRegister.Register.Facts;

namespace MicRegister.Documents.Tests.Import;

/// <summary>
/// The same row must be the same fact for ever: registers that took a list over know it again by the ids of its rows. The ids stand as
/// the release of 2026-11-30 made them.
/// </summary>
public sealed class RowFactIdTests
{
    private static readonly string[] Tables =
    [
        "Kind,Model,Serial,Size,Response,Nominal [mV/Pa],Date,Sensitivity,U [dB],k,Lab,Location,Status,Note\n"
            + "mic,A-12,101,1/2\",pressure,12.5,2024-03-01,12.53 mV/Pa,0.06,2,House,Hall 1,lost,bent grid\n"
            + "mic,A-12,101,,,,2025-03-03,-38.04 dB,0.06,2,House,,,\n"
            + "mic,A-12,102,1/2\",ff,12.5,4.3.2025,\"12,41 mV/Pa\",0.06,2,House,Van,,\n"
            + "mic,A-12,103,1/2\",ff,,,,,,,Van,,\n"
            + "mic,A-12,103,,,12.5,,,,,,,away,\n"
            + "plate,P-1,7,,,,,,,,,Hall 2,,\n",
        "Serial,2021,2022\n101,-38.01 dB,-38.02 dB\n",
        "Serial,Inspected,Passed,Step [mm]\n7,2025-05-05,yes,0.2\n",
        "Profile,Limit,Value,Text,Source\nour-own,drift-db,0.4,,House rule 3\n",
        "Campaign,First day,Last day,Time zone,Altitude [m],Source,Band from,Band to,Profile,Permitted losses\n"
            + "Trial 1,2026-10-20,2026-10-30,Atlantic/Azores,120,drone,50,16000,our-own,2\n",
        "Station,Lat,Lon,Mount,Microphone,Plate\nS1,38.2,-30.5,flush,101,7\n",
        "Campaign,Purpose,Serial\nTrial 1,spare,102\n",
        "Setting,Value\nlaboratory-days,21\n",
    ];

    private static readonly string[] Ids =
    [
        "00000000009KV457R6TRRVRESA", "0000000000HRQJTKC1B8DD4CC1", "0000000000SJ7M058JK861QH8R", "0000000000SZKQV3C9ETSH41RH",
        "01HQVMZ100WF2WHR95XB1N29ND", "01JNCMTT00YN55TQBPPY87AYSC", "0000000000J711MXZF8TNNAJ2W", "0000000000FMNR7CBDPJACDDQW",
        "01JNF77H00NKWYE3BT1G2CQJFM", "0000000000YXGJXZYVVWD15PE4", "0000000000QHPA77V9R7F9G6VS", "01KT07NV00QAGGT3YRY2KRXQYF",
        "0000000000P66B3C92BZHWYM3F", "0000000000EEEJT3PC2PZEJG5K", "00000000007AANEZ2ZMCZYNW6K", "01ETXKWW00R4GFS46MF1KFR81F",
        "01FR9EZ700F8SEXPCWJ9Q3VV0C", "01JTEVW3001PCC3N83MM6775FE", "0000000000KX02TRTYD1X58747", "00000000004J8KR9DW81MZ3B4M",
        "000000000075CC89HCCT19YCPA", "0000000000T0K1GYN4EEWVEX03", "00000000007R00NPRVS901VJWM", "01KT07NV008DH3G7H4MP5VXS5K",
    ];

    [Fact]
    public void Rows_on_an_empty_register_are_the_facts_that_they_always_were()
    {
        var session = new ImportSession(Register.Register.Empty(new FactList()), new(2026, 6, 1));
        foreach (var table in Tables)
        {
            var report = session.Take(new MemoryStream(Encoding.UTF8.GetBytes(table)), "list.csv", ImportMapping.None);
            Assert.True(report.IsGood, string.Join(' ', report.Outcomes.Select(o => o.Text)));
        }
        Assert.Equal(Ids, session.Facts.Select(f => f.Id.ToString()));
        // Of all their bytes.
        var digest = session.Facts.Aggregate(default(SetDigest), (sum, f) => sum.With(f.Bytes.Span));
        Assert.Equal("853bb3fcf30cbab84d448f14be1d603348cb3afb304b07ac78dfa5f2044c7a42", digest.ToString());
    }
}
