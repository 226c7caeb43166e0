import { render, Text } from "ink";

render(<Text>hello</Text>);
