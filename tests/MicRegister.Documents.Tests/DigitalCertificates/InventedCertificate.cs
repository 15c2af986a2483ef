namespace MicRegister.Documents.Tests.DigitalCertificates;

/// <summary>A digital calibration certificate of an invented laboratory.</summary>
public static class InventedCertificate
{
    /// <summary>Its text.</summary>
    /// <param name="version">Version of the schema; left out where empty.</param>
    /// <param name="quantity">What stands in its one quantity.</param>
    public static string Text(string version, string quantity) => $"""
        <?xml version="1.0" encoding="UTF-8"?>
        <dcc:digitalCalibrationCertificate xmlns:dcc="https://ptb.de/dcc" xmlns:si="https://ptb.de/si"{(version.Length > 0 ? $" schemaVersion=\"{version}\"" : "")}>
          <dcc:administrativeData>
            <dcc:coreData>
              <dcc:uniqueIdentifier>DCC-26-1</dcc:uniqueIdentifier>
              <dcc:beginPerformanceDate>2026-05-04</dcc:beginPerformanceDate>
              <dcc:endPerformanceDate>2026-05-05</dcc:endPerformanceDate>
            </dcc:coreData>
            <dcc:items>
              <dcc:item>
                <dcc:name><dcc:content lang="en">Microphone</dcc:content></dcc:name>
                <dcc:manufacturer><dcc:name><dcc:content>Maker</dcc:content></dcc:name></dcc:manufacturer>
                <dcc:model>M-1</dcc:model>
                <dcc:identifications>
                  <dcc:identification><dcc:issuer>customer</dcc:issuer><dcc:value>A-7</dcc:value></dcc:identification>
                  <dcc:identification><dcc:issuer>manufacturer</dcc:issuer><dcc:value>41001</dcc:value></dcc:identification>
                </dcc:identifications>
              </dcc:item>
            </dcc:items>
            <dcc:calibrationLaboratory><dcc:contact><dcc:name><dcc:content>House of measurement</dcc:content></dcc:name></dcc:contact></dcc:calibrationLaboratory>
          </dcc:administrativeData>
          <dcc:measurementResults>
            <dcc:measurementResult>
              <dcc:name><dcc:content>Calibration</dcc:content></dcc:name>
              <dcc:results>
                <dcc:result>
                  <dcc:name><dcc:content>Result</dcc:content></dcc:name>
                  <dcc:data><dcc:list><dcc:quantity refType="basic_measuredValue"><dcc:name><dcc:content>Sensitivity</dcc:content></dcc:name>{quantity}</dcc:quantity></dcc:list></dcc:data>
                  <dcc:measurementMetaData><dcc:metaData><dcc:data><dcc:quantity><si:real><si:value>99</si:value></si:real></dcc:quantity></dcc:data></dcc:metaData></dcc:measurementMetaData>
                </dcc:result>
              </dcc:results>
            </dcc:measurementResult>
          </dcc:measurementResults>
        </dcc:digitalCalibrationCertificate>
        """;
}
